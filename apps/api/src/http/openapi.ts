/** The OpenAPI 3.1 document, made from the same schemas that read requests and shape answers. */
import { Problem } from '@ullage/contracts';
import * as z from 'zod';
import type { Route, RouteInput } from './routes.ts';
import { API_VERSION } from './version.ts';

type Json = Record<string, unknown>;
type Direction = 'input' | 'output';
const JsonObject = z.record(z.string(), z.unknown());
const asObject = (value: unknown): Json => JsonObject.catch({}).parse(value);

/** Collects the schemas that have a name, so that each stands in the document once. */
class Components {
  readonly schemas: Json = {};

  /** @throws Error when one name stands for two shapes: give each its own. */
  of(schema: z.ZodType, io: Direction): Json {
    const made = z.toJSONSchema(schema, {
      target: 'draft-2020-12',
      io,
      unrepresentable: 'any',
      // Answers may grow: only a strict shape forbids what it does not name.
      override: ({ zodSchema, jsonSchema }) => {
        const { def } = zodSchema._zod;
        if (def.type === 'object' && !('catchall' in def && def.catchall)) delete jsonSchema.additionalProperties;
      },
    });
    const { $schema: _, $defs, ...shape } = asObject(made);
    for (const [name, named] of Object.entries(asObject($defs))) this.#keep(name, moved(asObject(named)));
    return moved(shape);
  }

  #keep(name: string, named: Json): void {
    const shape = Object.fromEntries(Object.entries(named).filter(([key]) => key !== 'id'));
    const before = this.schemas[name];
    if (before !== undefined && JSON.stringify(before) !== JSON.stringify(shape)) {
      throw new Error(`The name ${name} stands for two shapes: give each its own.`);
    }
    this.schemas[name] = shape;
  }
}
const moved = (shape: Json): Json =>
  asObject(JSON.parse(JSON.stringify(shape).replaceAll('"#/$defs/', '"#/components/schemas/')));

function parametersOf(input: RouteInput, components: Components): Json[] {
  const shape = components.of(input.schema, 'input');
  if (input.name !== undefined) return [{ name: input.name, in: input.in, required: true, schema: shape }];
  const required = z.array(z.string()).catch([]).parse(shape['required']);
  return Object.entries(asObject(shape['properties'])).map(([name, schema]) => ({
    name,
    in: input.in,
    required: required.includes(name),
    schema,
  }));
}
const KEY = {
  name: 'Idempotency-Key',
  in: 'header',
  required: true,
  description: 'A new UUID of version 7: the command’s id. The same key with the same content is the same command.',
  schema: { type: 'string', format: 'uuid' },
};

function operationOf(route: Route, components: Components): Json {
  const body = route.inputs.find((input) => input.in === 'body');
  const keyed = route.method !== 'GET' && !route.keyless && route.access?.to === 'member';
  const parameters = [
    ...route.inputs.filter((input) => input !== body).flatMap((input) => parametersOf(input, components)),
    ...(keyed ? [KEY] : []),
  ];
  const json = (schema: z.ZodType, io: Direction): Json => ({
    content: { 'application/json': { schema: components.of(schema, io) } },
  });
  const problem = { content: { 'application/problem+json': { schema: components.of(Problem, 'output') } } };
  return {
    operationId: operationId(route),
    ...(route.access?.to === 'member' ? { 'x-permission': route.access.may } : { security: [] }),
    ...(parameters.length === 0 ? {} : { parameters }),
    ...(body === undefined ? {} : { requestBody: { required: true, ...json(body.schema, 'input') } }),
    ...(route.takesBytes === undefined ? {} : { requestBody: bytesOf(route.takesBytes) }),
    responses: {
      '200': {
        description: 'Done.',
        ...(route.returns === undefined ? {} : json(route.returns, 'output')),
        // In OpenAPI 3.1 a body of bytes has no schema.
        ...(route.returnsBytes === undefined ? {} : { content: { [route.returnsBytes]: {} } }),
      },
      default: { description: 'A problem document, RFC 9457.', ...problem },
    },
  };
}
const bytesOf = (description: string): Json => ({
  required: true,
  description,
  content: { 'application/octet-stream': {} },
});
const operationId = ({ method, path }: Route): string =>
  `${method.toLowerCase()}${path.replaceAll(/[/:-]+(\w)/g, (_, letter: string) => letter.toUpperCase())}`;

/** The routes under /v1 that our schemas describe; the sign-in routes of the library are told in words. */
export function openApiOf(routes: readonly Route[]): Json {
  const components = new Components();
  const paths: Record<string, Json> = {};
  for (const route of routes.filter(({ path }) => path.startsWith('/v1/'))) {
    const path = route.path.replaceAll(/:(\w+)/g, '{$1}');
    (paths[path] ??= {})[route.method.toLowerCase()] = operationOf(route, components);
  }
  const byName = ([a]: [string, unknown], [b]: [string, unknown]): number => (a < b ? -1 : 1);
  return {
    openapi: '3.1.1',
    info: {
      title: 'Ullage',
      version: API_VERSION,
      description:
        'A person signs in by POST /v1/auth/sign-in/email; the session is a cookie. A program sends a key in the header ' +
        'Authorization: Bearer, or in x-api-key.',
    },
    paths: Object.fromEntries(Object.entries(paths).sort(byName)),
    components: {
      schemas: Object.fromEntries(Object.entries(components.schemas).sort(byName)),
      securitySchemes: {
        session: { type: 'apiKey', in: 'cookie', name: 'ullage.session_token' },
        bearer: { type: 'http', scheme: 'bearer', description: 'A key of the contractor.' },
        key: { type: 'apiKey', in: 'header', name: 'x-api-key', description: 'The same key.' },
      },
    },
    security: [{ session: [] }, { bearer: [] }, { key: [] }],
  };
}
