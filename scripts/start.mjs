/**
 * `npm start`: from a bare clone to a running server, in one command.
 *
 * PORT (4173) and HOST (127.0.0.1) say where it listens, PROVEWELL_DATA (data/) where its one database file lives. Behind a proxy that
 * speaks https, ORIGIN gives the address that visitors use.
 */
import { createServer } from 'node:http';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import { buildIfChanged, checkNode, fail, installIfMissing, root } from './make-ready.mjs';

const startedBy = process.ppid;
checkNode();
process.chdir(root);
const host = process.env.HOST || '127.0.0.1';
const port = portOf(process.env.PORT || '4173');
checkOrigin();
checkLog();

installIfMissing();
if (!buildIfChanged()) fail('The app could not be built; the lines above say why.');

/** Errors whose message is written for whoever runs the server. */
const clear = ['DataFolderProblem', 'NoScenarios', 'ScenarioProblems'];

// Without ORIGIN the adapter takes the scheme from a header that only this file sets, so that forms are accepted at any of the
// machine's own names and a visitor cannot choose the scheme.
const schemeHeader = 'x-provewell-scheme';
process.env.PROTOCOL_HEADER = schemeHeader;
process.env.NODE_ENV ??= 'production';

const server = createServer();
// Longer than what proxies and clients keep an idle connection, so that it is they who let go.
server.keepAliveTimeout = 65_000;
const early = (request, response) => response.writeHead(503, { 'retry-after': '1' }).end('Starting.');
server.on('request', early);
server.on('error', (error) => {
	if (error.code === 'EADDRINUSE') fail(`Port ${port} on ${host} is in use. Stop what uses it, or choose another: PORT=4174 npm start`);
	if (error.code === 'EACCES') fail(`Port ${port} on ${host} may not be used by this user. Choose one above 1023.`);
	fail(`The server could not listen on ${host}:${port}: ${error.message}`);
});
// The port is taken before the data folder is touched: a second start on the same port changes nothing.
await new Promise((listening) => server.listen(port, host, listening));

// The app makes the link while it is loaded, and keeps only what it is known by.
let ownerLink;
process.once('provewell:owner-link', (path) => (ownerLink = path));

try {
	const { handler } = await import(pathToFileURL(join(root, 'build', 'handler.js')).href);
	server.off('request', early);
	server.on('request', (request, response) => {
		request.headers[schemeHeader] = 'http';
		handler(request, response, () => response.writeHead(404).end());
	});
} catch (error) {
	fail(clear.includes(error.name) ? error.message : `The server could not start: ${error.stack}`);
}

const shown = host.includes(':') ? `[${host}]` : host;
const address = `http://${shown}:${server.address().port}`;
const health = await fetch(`${address.replace('0.0.0.0', '127.0.0.1').replace('[::]', '[::1]')}/health`);
if (!health.ok) fail(`The server answered its own health check with ${health.status}.`);
const lines = [`Provewell is at ${address}`];
if (ownerLink)
	lines.push(`There is no owner yet. Whoever opens this first becomes the owner: ${process.env.ORIGIN ?? address}${ownerLink}`);
console.log(lines.join('\n'));

let stopping = false;
function stop(reason) {
	if (stopping) return;
	stopping = true;
	server.close(() => {
		process.emit('sveltekit:shutdown', reason);
		process.exit(0);
	});
	server.closeIdleConnections();
	setTimeout(() => server.closeAllConnections(), 2000).unref();
}
process.on('SIGTERM', stop);
process.on('SIGINT', stop);

// npm starts this in a shell, and passes a signal to the shell only: when that is gone, so is whoever asked for the server.
if (process.env.npm_lifecycle_event) {
	setInterval(() => process.ppid !== startedBy && stop('SIGTERM'), 200).unref();
}

/** @param {string} text */
function portOf(text) {
	if (!/^\d+$/.test(text) || Number(text) > 65535) fail(`PORT must be a whole number from 0 to 65535; it is "${text}".`);
	return Number(text);
}

/** An address without a path, as browsers send it; the forms of visitors are held against it. */
function checkOrigin() {
	const origin = process.env.ORIGIN;
	if (!origin) return void delete process.env.ORIGIN;
	const isWeb = URL.canParse(origin) && ['http:', 'https:'].includes(new URL(origin).protocol);
	if (!isWeb || new URL(origin).origin !== origin) fail(`ORIGIN must be an address such as https://provewell.example; it is "${origin}".`);
}

function checkLog() {
	const levels = ['error', 'warn', 'info', 'debug'];
	const level = process.env.PROVEWELL_LOG || 'info';
	if (!levels.includes(level)) fail(`PROVEWELL_LOG must be one of ${levels.join(', ')}; it is "${level}".`);
}
