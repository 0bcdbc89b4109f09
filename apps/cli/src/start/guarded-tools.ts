import { spawn } from 'node:child_process';
import { alive } from '../processes.ts';
import { runTool, type ToolRun } from '../run-tool.ts';
import type { Outcome } from '../check/outcome.ts';
import { endGroup, type ChildrenFile } from './leftovers.ts';

/** Runs tools that neither outlive this start nor are forgotten by the next one. */
export interface GuardedTools {
  run(tool: Omit<ToolRun, 'onSpawn'>): Promise<Outcome>;
  /** Ends those that run. */
  stop(): Promise<void>;
}

export function guardedTools(children: ChildrenFile): GuardedTools {
  const running = new Set<number>();
  return {
    async run(tool) {
      let started: number | undefined;
      let unwatch = (): void => {};
      const outcome = await runTool({
        ...tool,
        onSpawn(pid, script) {
          started = pid;
          running.add(pid);
          children.add('a build', pid, script);
          unwatch = watchOver(pid);
        },
      });
      unwatch();
      if (started !== undefined) {
        running.delete(started);
        children.remove(started);
      }
      return outcome;
    },
    async stop() {
      for (const pid of running) if (alive(pid)) await endGroup(pid, 2_000);
    },
  };
}

/**
 * When this process dies in any way its pipe closes, and the watchdog ends the group of `pid`. The answer calls the
 * watchdog off: call it when the group has ended, as its number may then be given away again.
 */
export function watchOver(pid: number): () => void {
  const script = 'trap "" INT TERM HUP; read -r _; kill -TERM "-$1" 2>/dev/null; sleep 5; kill -KILL "-$1" 2>/dev/null';
  const dog = spawn('/bin/sh', ['-c', script, 'watchdog', String(pid)], {
    detached: true,
    stdio: ['pipe', 'ignore', 'ignore'],
  });
  dog.on('error', () => {});
  dog.unref();
  return () => dog.kill('SIGKILL');
}
