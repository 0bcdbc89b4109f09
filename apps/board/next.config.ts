import path from 'node:path';
import type { NextConfig } from 'next';

const root = path.join(import.meta.dirname, '../..');

/**
 * On every answer of the board, its pictures and scripts too. A browser heeds the first over https only: once it has come
 * that way it never comes another. What may run on a page, the page's own policy says (proxy.ts).
 */
const HEADERS = [
  { key: 'strict-transport-security', value: 'max-age=31536000; includeSubDomains' },
  { key: 'x-content-type-options', value: 'nosniff' },
  { key: 'referrer-policy', value: 'same-origin' },
  { key: 'permissions-policy', value: 'camera=(self), geolocation=(self), microphone=()' },
  { key: 'cross-origin-opener-policy', value: 'same-origin' },
  { key: 'cross-origin-resource-policy', value: 'same-origin' },
];

const config: NextConfig = {
  // What goes on to the api comes back with the api's own.
  headers: () => Promise.resolve([{ source: '/((?!v1/).*)', headers: HEADERS }]),
  // Asked for by a browser that has not yet met the page's own mention of the picture.
  redirects: () => Promise.resolve([{ source: '/favicon.ico', destination: '/icon.svg', permanent: true }]),
  // The launcher builds beside the running server and swaps the folder: building into the live one breaks its files.
  distDir: process.env['BUILD_DIR'] ?? '.next',
  output: 'standalone',
  outputFileTracingRoot: root,
  turbopack: { root },
  transpilePackages: [
    '@ullage/contracts',
    '@ullage/gasbook',
    '@ullage/roster',
    '@ullage/rulebook',
    '@ullage/thermo',
    '@ullage/units',
  ],
  typedRoutes: true,
  poweredByHeader: false,
  reactStrictMode: true,
};

export default config;
