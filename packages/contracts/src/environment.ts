/** How a program reads its environment. Each app states its own variables in its `env.ts`; what they share stands here. */
import * as z from 'zod';

/** The environment as a process has it: `process.env`, or what a test hands in. */
export type ProcessEnvironment = Readonly<Record<string, string | undefined>>;

/** The URL of a server, or of the page that people type. */
export const ServerUrl = z.url({ error: (issue) => (issue.input === undefined ? 'is not set' : 'is not a URL') });
export const LogLevel = z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent']).default('info');

/** A collector of traces (OTLP over HTTP); without it none are made. */
export const OTEL_EXPORTER_OTLP_ENDPOINT = ServerUrl.optional();

/**
 * The environment, checked. A variable set to nothing (`REDIS_URL= npm start`) is one that is not set.
 * @throws Error with a line for each variable that is missing or wrong: its name, never its value
 */
export function readEnvironment<Variables extends z.ZodType>(
  variables: Variables,
  environment: ProcessEnvironment,
): z.output<Variables> {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
  const read = variables.safeParse(given);
  if (read.success) return read.data;
  const faults = read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
  throw new Error(`The environment is not complete.\n${faults.join('\n')}`);
}
