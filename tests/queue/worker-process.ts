/** The compiled worker as a process of its own, as `npm start` runs it. */
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { rmSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import type { Server, Socket } from 'node:net';
import { join } from 'node:path';
import { root } from '@ullage/cli/tasks';

// On the level of `dist`, so that it finds the same packages; beside it, so that no other run loads a half-written one.
const folder = `apps/worker/.next-test-${process.pid}`;

export function compileWorker(): void {
  const tsc = join(root, 'node_modules/typescript-7/bin/tsc');
  const args = [tsc, '-p', 'apps/worker/tsconfig.build.json', '--outDir', folder];
  const { status, stdout } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(`apps/worker does not compile:\n${stdout}`);
}
export const removeCompiled = (): void => rmSync(join(root, folder), { recursive: true, force: true });

export interface WorkerProcess {
  readonly child: ChildProcess;
  /** All it wrote so far. */
  readonly log: () => string;
  /** How it ended: its exit code or its signal. */
  readonly ended: Promise<number | string>;
}
export function startWorkerProcess(env: Readonly<Record<string, string>>): WorkerProcess {
  const child = spawn(process.execPath, ['--enable-source-maps', join(root, folder, 'main.js')], {
    cwd: root,
    env: { PATH: process.env.PATH, NODE_ENV: 'production', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let log = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text: Buffer) => (log += text.toString()));
  const ended = once(child, 'exit').then(([code, signal]: (number | string | null)[]) => signal ?? code ?? 'unknown');
  return { child, log: () => log, ended };
}

/** A door that is shut at first: what connects is refused until it is opened to the real address. */
export class Door {
  #server: Server | undefined;
  readonly #sockets = new Set<Socket>();
  readonly port: number;
  readonly #to: { host: string; port: number };
  private constructor(port: number, to: { host: string; port: number }) {
    this.port = port;
    this.#to = to;
  }
  static async to(url: string): Promise<Door> {
    const { hostname, port } = new URL(url);
    const probe = createServer().listen(0, '127.0.0.1');
    await once(probe, 'listening');
    const address = probe.address();
    probe.close();
    if (address === null || typeof address === 'string') throw new Error('no free port');
    return new Door(address.port, { host: hostname, port: Number(port) });
  }
  /** The same address, through the door. */
  through(url: string): string {
    const behind = new URL(url);
    behind.hostname = '127.0.0.1';
    behind.port = String(this.port);
    return behind.href;
  }
  async open(): Promise<void> {
    this.#server = createServer((socket) => {
      const real = connect(this.#to.port, this.#to.host);
      for (const end of [socket, real]) {
        this.#sockets.add(end);
        end.on('error', () => undefined);
        end.on('close', () => this.#sockets.delete(end));
      }
      socket.pipe(real).pipe(socket);
      socket.on('close', () => real.destroy());
      real.on('close', () => socket.destroy());
    }).listen(this.port, '127.0.0.1');
    await once(this.#server, 'listening');
  }
  /** Cuts every connection and lets none through. */
  shut(): void {
    this.#server?.close();
    for (const socket of this.#sockets) socket.destroy();
  }
}
