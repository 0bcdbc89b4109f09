/**
 * One stream of changes for all tabs of a browser. The tab that holds the lock listens to the server and tells the
 * others; when it closes, the lock passes on. The stream only says "something changed": nobody depends on a message.
 */
export const LIVE_PATH = '/v1/changes/stream';
const NAME = 'ullage-live';
const MIN_WAIT_MS = 2_000;
const MAX_WAIT_MS = 30_000;

/** `open`: (re)connected, so fetch to heal; `change`: something changed; `lost`: what is shown may be old. */
export type LiveSignal = 'open' | 'change' | 'lost';
type Listener = (signal: LiveSignal) => void;
type Message = LiveSignal | 'who-leads';

/** Listens to the server and opens the stream anew when the browser gave it up (it does after an HTTP error). */
function openStream(path: string, tell: Listener): () => void {
  let stream: EventSource;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wait = MIN_WAIT_MS;
  const start = (): void => {
    stream = new EventSource(path);
    stream.onopen = () => {
      wait = MIN_WAIT_MS;
      tell('open');
    };
    stream.onmessage = () => tell('change');
    stream.onerror = () => {
      tell('lost');
      if (stream.readyState !== EventSource.CLOSED) return;
      timer = setTimeout(start, wait);
      wait = Math.min(wait * 2, MAX_WAIT_MS);
    };
  };
  start();
  return () => {
    clearTimeout(timer);
    stream.close();
  };
}

class LiveHub {
  readonly #listeners = new Set<Listener>();
  #stop: (() => void) | undefined;
  #last: LiveSignal = 'lost';

  /** Starts with the first listener and stops with the last. */
  join(listener: Listener): () => void {
    this.#listeners.add(listener);
    this.#stop ??= this.#start();
    return () => {
      this.#listeners.delete(listener);
      if (this.#listeners.size > 0) return;
      this.#stop?.();
      this.#stop = undefined;
      this.#last = 'lost';
    };
  }

  get connected(): boolean {
    return this.#last !== 'lost';
  }

  #tell(signal: LiveSignal): void {
    this.#last = signal;
    for (const listener of this.#listeners) listener(signal);
  }

  #start(): () => void {
    // Very old browsers: a stream of its own for each tab.
    if (!('locks' in navigator) || typeof BroadcastChannel === 'undefined')
      return openStream(LIVE_PATH, (signal) => this.#tell(signal));
    const gone = new AbortController();
    const channel = new BroadcastChannel(NAME);
    channel.onmessage = ({ data }: MessageEvent<Message>) => {
      if (data !== 'who-leads') this.#tell(data);
    };
    channel.postMessage('who-leads' satisfies Message);
    const lead = (): Promise<void> => this.#lead(channel, gone.signal);
    // Rejects when this tab leaves before it led: that is the ordinary end.
    navigator.locks.request(NAME, { signal: gone.signal }, lead).catch(() => undefined);
    return () => {
      gone.abort();
      channel.close();
    };
  }

  /** Holds the lock until this tab leaves. */
  #lead(channel: BroadcastChannel, left: AbortSignal): Promise<void> {
    // The lock may be granted in the moment in which this tab leaves: it must not be kept then.
    if (left.aborted) return Promise.resolve();
    const close = openStream(LIVE_PATH, (signal) => {
      this.#tell(signal);
      channel.postMessage(signal satisfies Message);
    });
    channel.onmessage = ({ data }: MessageEvent<Message>) => {
      // A tab that has just opened has fetched already; it only needs to know whether the line stands.
      if (data === 'who-leads' && this.connected) channel.postMessage('open' satisfies Message);
    };
    return new Promise((resolve) => {
      left.addEventListener('abort', () => {
        close();
        resolve();
      });
    });
  }
}

export const liveHub = new LiveHub();
