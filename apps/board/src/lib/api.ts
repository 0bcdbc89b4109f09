import 'server-only';
import { Id } from '@ullage/contracts';
import { cookies, headers } from 'next/headers';
import { notFound, redirect } from 'next/navigation';
import type { z } from 'zod';
import { env } from '../env.ts';
import { ADDRESS_HEADER } from './client-address.ts';

/** The API refused or failed. The message is for the log: a page shows the error screen and a reference. */
export class ApiError extends Error {
  readonly status: number;
  constructor(status: number, path: string) {
    super(`API ${status} for ${path}`);
    this.name = 'ApiError';
    this.status = status;
  }
}

/** The raw call as the visitor: their cookie, their address, never cached, ten seconds at most. */
export async function fetchAsVisitor(path: `/v1/${string}`): Promise<Response> {
  const [jar, said] = await Promise.all([cookies(), headers()]);
  return fetch(env().apiOrigin + path, {
    cache: 'no-store',
    signal: AbortSignal.timeout(10_000),
    headers: {
      accept: 'application/json',
      cookie: jar.toString(),
      'x-forwarded-for': said.get(ADDRESS_HEADER) ?? 'unknown',
      'x-forwarded-host': said.get('host') ?? '',
    },
  });
}

/**
 * Reads from the API for a server component and checks the answer's shape.
 * No session leads to the door, an unknown id to the 404 page. @throws ApiError for everything else that is not 2xx
 */
export async function get<S extends z.ZodType>(path: `/v1/${string}`, schema: S): Promise<z.output<S>> {
  const response = await fetchAsVisitor(path);
  if (response.status === 401) {
    const at = (await headers()).get('x-path') ?? '/';
    redirect(at === '/' ? '/sign-in' : `/sign-in?next=${encodeURIComponent(at)}`);
  }
  if (response.status === 404) notFound();
  if (!response.ok) throw new ApiError(response.status, path);
  return schema.parse(await response.json());
}

/**
 * Reads the record that an address names, `part` of it where given. Text that is no id of ours leads to the 404 page, as
 * an id that nobody has does. Asked for before a page shows anything: what has begun to stream has answered 200.
 */
export async function getRecord<S extends z.ZodType>(
  of: {
    readonly kind: 'units' | 'cylinders' | 'manifests' | 'visits' | 'sheets' | 'imports' | 'recalls';
    readonly id: string;
    readonly part?: string;
  },
  schema: S,
): Promise<z.output<S>> {
  if (!Id.safeParse(of.id).success) notFound();
  return get(`/v1/${of.kind}/${of.id}${of.part ?? ''}`, schema);
}
