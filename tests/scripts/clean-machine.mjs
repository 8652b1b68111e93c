// `npm run test:clean`: makes a Debian root from Debian's own packages, with nothing but Node.js and git in it, clones the committed state there and runs the whole `npm test` twice.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { importTs } from '../../server/scripts/run-ts.mjs';
import { root } from '../../server/scripts/setup.mjs';

const help = `npm run test:clean -- [OPTION…] [-- COMMAND…]
  COMMAND          runs this in the fresh checkout; else npm test -- --all
  --runs N         how often, one after the other; 2 unless told otherwise
  --folder FOLDER  makes the root there and keeps it; a root that is there is used again, with a fresh checkout
  --without-root   runs as a user who cannot install programs
  --help           this text`;

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    runs: { type: 'string', default: '2' },
    folder: { type: 'string' },
    'without-root': { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});
const prefix = dirname(dirname(realpathSync(process.execPath)));
const home = options['without-root'] ? '/opt/user' : '/root';
const checkout = `${home}/lugwork`;
// The one that Debian gives to the first user.
const userId = '1000';

try {
  if (options.help) console.log(help);
  else await main();
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

async function main() {
  await requireDebian();
  const system = options.folder ?? mkdtempSync(join(tmpdir(), 'lugwork-clean-'));
  try {
    if (!existsSync(join(system, 'etc', 'debian_version'))) makeRoot(system);
    carryOver(system);
    copyNode(system);
    clone(system);
    const command = positionals.length > 0 ? positionals : ['npm', 'test', '--silent', '--', '--all'];
    for (let run = 1; run <= Number(options.runs); run++) {
      const begin = performance.now();
      const { status } = inside(system, command);
      const minutes = ((performance.now() - begin) / 60_000).toFixed(1);
      console.log(`\nRun ${run} of ${options.runs} in the fresh root: exit code ${status}, ${minutes} minutes.\n`);
      if (status !== 0) process.exitCode = 1;
    }
  } finally {
    if (options.folder === undefined) rmSync(system, { recursive: true, force: true, maxRetries: 3 });
  }
}

async function requireDebian() {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version'))
    throw new Error('NOT RUN: a fresh root can be made by root on a Debian only.');
  const { ensurePrograms } = await importTs('tests/editor/hosts/needs.ts');
  await ensurePrograms(['debootstrap'], 'the tests in a fresh root');
  if (execute('git', ['-C', root, 'status', '--porcelain']) !== '')
    console.log('Changes that are not committed will not be in the fresh checkout.');
}

/** The smallest Debian of this machine's suite, from the mirror that this machine uses. */
function makeRoot(system) {
  const suite = /^VERSION_CODENAME=(\w+)$/m.exec(readFileSync('/etc/os-release', 'utf8'))?.[1];
  const sources = execute('apt-get', ['indextargets', '--format', '$(RELEASE) $(REPO_URI)', 'Created-By: Packages']);
  const mirror = sources
    .split('\n')
    .map((line) => line.split(' '))
    .find(([release]) => release === suite)?.[1];
  if (mirror === undefined) throw new Error(`The package sources of this machine have no suite ${suite}.`);
  console.log(`Making a Debian root (${suite}) in ${system}; this takes a minute or two …`);
  execute('debootstrap', ['--variant=minbase', '--include=ca-certificates,git', suite, system, mirror]);
}

/** How this machine reaches its package registries: read from its own settings, written into the fresh root alone. */
function carryOver(system) {
  const settings = [
    'sources.list',
    'sources.list.d',
    'apt.conf',
    'apt.conf.d',
    'auth.conf.d',
    'trusted.gpg',
    'trusted.gpg.d',
    'keyrings',
  ];
  const [npmUser, npmGlobal] = ['userconfig', 'globalconfig'].map((name) => execute('npm', ['config', 'get', name]).trim());
  // The one that debootstrap wrote names the same packages a second time.
  rmSync(join(system, '/etc/apt/sources.list'), { force: true });
  const paths = [
    ...settings.map((name) => join('/etc/apt', name)),
    ...['/usr/share/keyrings', '/etc/ssl/certs/ca-certificates.crt', '/etc/resolv.conf', '/etc/hosts'],
  ];
  const copies = [...paths.map((path) => [path, path]), [npmGlobal, npmGlobal], [npmUser, join(home, '.npmrc')]];
  for (const [from, to] of copies.filter(([from]) => existsSync(from)))
    cpSync(from, join(system, to), { recursive: true, dereference: true, force: true });
}

/** Node.js with its npm and its headers, and nothing else of the folder in which it is installed here. */
function copyNode(system) {
  for (const name of ['bin/node', 'include/node', 'lib/node_modules/npm'])
    cpSync(join(prefix, name), join(system, prefix, name), { recursive: true, force: true, verbatimSymlinks: true });
  for (const name of ['npm', 'npx']) {
    const link = join(system, prefix, 'bin', name);
    rmSync(link, { force: true });
    symlinkSync(`../lib/node_modules/npm/bin/${name}-cli.js`, link);
  }
}

function clone(system) {
  const place = join(system, checkout);
  rmSync(place, { recursive: true, force: true });
  mkdirSync(dirname(place), { recursive: true });
  execute('git', ['clone', '--quiet', '--no-hardlinks', root, place]);
  if (options['without-root']) execute('chown', ['-R', `${userId}:${userId}`, join(system, home)]);
}

/** Runs a command in the fresh checkout; what is mounted for it is gone with its last process. */
function inside(system, command) {
  const mounts = 'mount -t proc proc "$0/proc" && mount --rbind /dev "$0/dev" && exec chroot "$0" "$@"';
  const user = options['without-root'] ? ['setpriv', '--reuid', userId, '--regid', userId, '--clear-groups'] : [];
  const words = [...user, 'sh', '-c', `cd ${checkout} && exec "$@"`, 'sh', ...command];
  return spawnSync('unshare', ['--mount', '--pid', '--fork', '--kill-child', 'sh', '-c', mounts, system, ...words], {
    stdio: 'inherit',
    env: environment(),
  });
}

/** This machine's environment without what npm, which may have started this script, and the settings of this checkout add. */
function environment() {
  const kept = Object.entries(process.env).filter(([name]) => !/^(npm_|LUGWORK_|NODE$|INIT_CWD$|TMPDIR$|DISPLAY$)/.test(name));
  return {
    ...Object.fromEntries(kept),
    HOME: home,
    LANG: 'C.UTF-8',
    PATH: [...new Set([`${prefix}/bin`, '/usr/sbin', '/usr/bin', '/sbin', '/bin'])].join(':'),
  };
}

/** Runs a program of this machine to its end and gives what it printed; a failure is an error with all of that. */
function execute(command, words) {
  const { status, error, stdout, stderr } = spawnSync(command, words, { encoding: 'utf8', maxBuffer: 1e8 });
  if (error) throw error;
  if (status !== 0) throw new Error(`${command} ended with exit code ${status}.\n${stdout}${stderr}`);
  return stdout;
}
