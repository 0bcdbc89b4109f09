import path from 'node:path';
import type { NextConfig } from 'next';

const root = path.join(import.meta.dirname, '../..');

const config: NextConfig = {
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
