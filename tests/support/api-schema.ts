import { Ajv2020 } from 'ajv/dist/2020.js';
import type { ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';

interface Operation {
  readonly responses: Readonly<
    Record<string, { readonly content?: Readonly<Record<string, { readonly schema: object }>> }>
  >;
}
export interface OpenApi {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, object>> };
}
export interface Promised {
  /** As the document writes it: `/v1/units/{id}`. */
  readonly path: string;
  readonly method: string;
  readonly status: 'default' | '200';
}

/** The validator of an operation's answer, by the document alone. @throws Error when it promises nothing */
export function validatorOf(document: OpenApi, { path, method, status }: Promised): ValidateFunction {
  const ajv = new Ajv2020({ strict: false, allErrors: true });
  addFormats.default(ajv);
  ajv.addSchema({ $id: 'document', ...document });
  const content = document.paths[path]?.[method]?.responses[status]?.content ?? {};
  const type = status === '200' ? 'application/json' : 'application/problem+json';
  if (content[type] === undefined) throw new Error(`${method} ${path} promises nothing for ${status}`);
  const pointer = ['paths', path, method, 'responses', status, 'content', type, 'schema']
    .map((part) => encodeURIComponent(part.replaceAll('~', '~0').replaceAll('/', '~1')))
    .join('/');
  return ajv.compile({ $ref: `document#/${pointer}` });
}
