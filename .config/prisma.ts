// The Prisma CLI finds this file by its name, which keeps the top level free. Paths are relative to this file.
import { defineConfig } from 'prisma/config';

const { MIGRATE_DATABASE_URL, SHADOW_DATABASE_URL } = process.env;

export default defineConfig({
  schema: '../prisma/schema',
  migrations: { path: '../prisma/migrations' },
  datasource: {
    url: MIGRATE_DATABASE_URL ?? 'postgresql://unset@127.0.0.1:1/unset',
    ...(SHADOW_DATABASE_URL ? { shadowDatabaseUrl: SHADOW_DATABASE_URL } : {}),
  },
});
