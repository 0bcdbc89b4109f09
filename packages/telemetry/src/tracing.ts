/** What a program says of its own work to a collector, as spans of OpenTelemetry. */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

export interface Span {
  /** Hexadecimal, for the log line beside it. */
  readonly traceId: string;
  /** Ends it; `name` says what it turned out to be. Never names, bodies, addresses or query strings. */
  end(how: { readonly name?: string; readonly attributes?: Attributes; readonly failed?: boolean }): void;
}
export interface Begin {
  readonly name: string;
  /** A request that is answered, or a job that is done. */
  readonly kind: 'server' | 'consumer';
  /** The header `traceparent` (W3C Trace Context) of whoever asked, if they are tracing. */
  readonly parent?: string | undefined;
}
export interface Tracing {
  begin(given: Begin): Span;
  /** Hands over what is still here; waits for the collector two seconds at most. */
  close(): Promise<void>;
}
export interface TracingSettings {
  readonly service: string;
  /** The collector, as OTEL_EXPORTER_OTLP_ENDPOINT gives it: spans go to `/v1/traces` below it. */
  readonly endpoint: string | undefined;
}
