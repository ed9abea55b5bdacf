/**
 * Brings a clone to where it can run: the right Node, the packages of the lock file, a build of the present sources.
 * Plain Node with nothing installed, since it is what installs.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** Whatever the built app is made from. Data in scenarios/ and migrations/ is read when the server starts. */
const sources = ['src', 'shared', 'package.json', 'package-lock.json', 'svelte.config.js', 'vite.config.ts', 'tsconfig.json'];
const stampFile = join(root, 'build', '.sources');

/** Ends the process with one plain line when this Node is too old to run the packages. */
export function checkNode() {
	const [major, minor] = process.versions.node.split('.').map(Number);
	if (major > 20 || (major === 20 && minor >= 19)) return;
	fail(`Provewell needs Node 20.19 or newer; this is ${process.versions.node}.`);
}

/** @param {string} line  what went wrong and what was expected */
export function fail(line) {
	console.error(line);
	process.exit(1);
}

/** Runs a program with its output shown. @returns {boolean} whether it ended well */
export function run(command, args, env = {}) {
	const done = spawnSync(command, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'], env: { ...process.env, ...env } });
	if (done.error) console.error(`${command} could not be run: ${done.error.message}`);
	return done.status === 0;
}

/** A program of node_modules, run by this very Node. */
export function runLocal(file, args, env = {}) {
	return run(process.execPath, [join(root, 'node_modules', file), ...args], env);
}

/**
 * Installs the lock file's packages unless they stand in node_modules already, and builds the database driver again when it was
 * made for another Node.
 */
export function installIfMissing() {
	if (!installedAsLocked()) {
		console.log('Installing packages (about a minute the first time).');
		if (!run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund'], ownHeaders()))
			fail('The packages could not be installed; the lines above say why.');
	}
	if (driverWorks()) return;
	console.log(`Building the database driver for Node ${process.versions.node}.`);
	run('npm', ['rebuild', 'better-sqlite3'], ownHeaders());
	if (!driverWorks()) fail('The database driver does not load on this Node; delete node_modules and start again.');
}

/**
 * The headers that came with this Node, where they did (in its own folder, or beside it when Node itself came as a package): the driver is
 * then built for it without a download, whatever npm is set to use.
 */
function ownHeaders() {
	const prefix = dirname(dirname(process.execPath));
	const places = [prefix, join(prefix, 'node_modules', `node-${process.platform}-${process.arch}`)];
	const place = places.find((folder) => existsSync(join(folder, 'include/node/node_api.h')));
	return place ? { npm_config_nodedir: place } : {};
}

/** Compares the lock file with npm's own record of what it installed. */
function installedAsLocked() {
	const record = join(root, 'node_modules', '.package-lock.json');
	if (!existsSync(record)) return false;
	const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
	const present = JSON.parse(readFileSync(record, 'utf8')).packages;
	return Object.entries(wanted).every(
		([path, entry]) => path === '' || present[path]?.version === entry.version || (entry.optional && !present[path])
	);
}

function driverWorks() {
	const script = "new (require('better-sqlite3'))(':memory:').close()";
	return spawnSync(process.execPath, ['-e', script], { cwd: root, stdio: 'ignore' }).status === 0;
}

/** Builds the app when its sources are not those of the last build. @returns {boolean} whether a build of them stands */
export function buildIfChanged() {
	const now = hashOfSources();
	if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === now) return true;
	console.log('Building the app.');
	if (!runLocal('vite/bin/vite.js', ['build', '--logLevel', 'warn'])) return false;
	writeFileSync(stampFile, now);
	return true;
}

/** One hash of every source file's path and content; by content, since a fresh clone has fresh times. */
function hashOfSources() {
	const hash = createHash('sha256');
	for (const path of sources.flatMap(filesUnder))
		hash
			.update(path)
			.update('\0')
			.update(readFileSync(join(root, path)))
			.update('\0');
	return hash.digest('hex');
}

/** @returns {string[]} paths of the files under a path, in one order everywhere */
function filesUnder(path) {
	const full = join(root, path);
	if (!existsSync(full)) return [];
	if (statSync(full).isFile()) return [path];
	return readdirSync(full)
		.sort()
		.flatMap((name) => filesUnder(`${path}/${name}`));
}
