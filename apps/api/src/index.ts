/** For tests that run the whole api in their own process. */
export { createApi } from './app.ts';
export type { Api } from './app.ts';
export { ATTEMPTS } from './auth/attempts.ts';
export { AUTH_ROUTES } from './auth/auth-routes.ts';
export { createAuth, openAuthPool } from './auth/create-auth.ts';
export type { Auth, AuthSettings } from './auth/create-auth.ts';
export { refuseDemoInPublic } from './demo-guard.ts';
export { readSettings } from './env.ts';
export type { LimitSettings } from './http/limits.ts';
export { Log } from './http/log.ts';
export { openApiOf } from './http/openapi.ts';
export { allRoutes } from './http/routes.ts';
export type { Route } from './http/routes.ts';
export { API_VERSION } from './http/version.ts';
export { CHANNEL } from './live/feed-watch.ts';
export type { Parts } from './parts.ts';
