/** The routes as the router has them, with what was said at each: for the OpenAPI document and for the tests. */
import { RequestMethod } from '@nestjs/common';
import type { INestApplication } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA, ROUTE_ARGS_METADATA } from '@nestjs/common/constants.js';
import { DiscoveryService, MetadataScanner } from '@nestjs/core';
import * as z from 'zod';
import { ACCESS, KEYLESS } from './access.ts';
import type { Access } from './access.ts';
import { RETURNS, RETURNS_BYTES, TAKES, TAKES_BYTES } from './returns.ts';

export interface RouteInput {
  readonly in: 'body' | 'query' | 'path';
  /** Of one named parameter; absent when the schema is of all. */
  readonly name: string | undefined;
  readonly schema: z.ZodType;
}
export interface Route {
  readonly method: string;
  /** As `/v1/units/:id`. */
  readonly path: string;
  /** As `UnitsController.unit`. */
  readonly handler: string;
  readonly access: Access | undefined;
  readonly keyless: boolean;
  readonly inputs: readonly RouteInput[];
  readonly returns: z.ZodType | undefined;
  /** Media type of the file it answers with. */
  readonly returnsBytes: string | undefined;
  /** What the bytes are that it takes. */
  readonly takesBytes: string | undefined;
}

type Handler = (...args: never[]) => unknown;
const PLACES: Readonly<Record<string, RouteInput['in']>> = { 3: 'body', 4: 'query', 5: 'path' };
const Argument = z.object({ data: z.unknown(), schema: z.unknown() });
const asText = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
const asSchema = (value: unknown): z.ZodType | undefined => (value instanceof z.ZodType ? value : undefined);

function inputsOf(controller: object, name: string, handler: Handler): RouteInput[] {
  const found: unknown = Reflect.getMetadata(ROUTE_ARGS_METADATA, controller, name);
  const stated = asSchema(Reflect.getMetadata(TAKES, handler));
  const inputs: RouteInput[] = stated === undefined ? [] : [{ in: 'body', name: undefined, schema: stated }];
  for (const [key, argument] of Object.entries(
    z
      .record(z.string(), z.unknown())
      .catch({})
      .parse(found ?? {}),
  )) {
    const place = PLACES[key.split(':')[0] ?? ''];
    const read = Argument.safeParse(argument);
    const schema = read.success ? asSchema(read.data.schema) : undefined;
    if (place === undefined || schema === undefined) continue;
    const data = read.data?.data;
    inputs.push({ in: place, name: typeof data === 'string' ? data : undefined, schema });
  }
  return inputs;
}

const joined = (...parts: readonly unknown[]): string =>
  `/${parts
    .map((part) => (typeof part === 'string' ? part : '').replaceAll(/^\/|\/$/g, ''))
    .filter((part) => part !== '')
    .join('/')}`;

function routeOf(controller: { readonly name: string }, name: string, handler: Handler): Route | undefined {
  const path: unknown = Reflect.getMetadata(PATH_METADATA, handler);
  if (path === undefined) return undefined;
  const method: unknown = Reflect.getMetadata(METHOD_METADATA, handler);
  return {
    method: typeof method === 'number' ? (RequestMethod[method] ?? 'GET') : 'GET',
    path: joined(Reflect.getMetadata(PATH_METADATA, controller), path),
    handler: `${controller.name}.${name}`,
    access: Reflect.getMetadata(ACCESS, handler) as Access | undefined,
    keyless: Reflect.getMetadata(KEYLESS, handler) !== undefined,
    inputs: inputsOf(controller, name, handler),
    returns: asSchema(Reflect.getMetadata(RETURNS, handler)),
    returnsBytes: asText(Reflect.getMetadata(RETURNS_BYTES, handler)),
    takesBytes: asText(Reflect.getMetadata(TAKES_BYTES, handler)),
  };
}

/** Every route of every controller. */
export function allRoutes(app: INestApplication): Route[] {
  const scanner = new MetadataScanner();
  return app
    .get(DiscoveryService, { strict: false })
    .getControllers()
    .flatMap(({ metatype }) => {
      if (typeof metatype !== 'function') return [];
      const prototype = metatype.prototype as Readonly<Record<string, Handler>>;
      return scanner.getAllMethodNames(prototype).flatMap((name) => {
        const handler = prototype[name];
        const route = handler && routeOf(metatype, name, handler);
        return route === undefined ? [] : [route];
      });
    });
}
