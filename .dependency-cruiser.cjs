/**
 * The rooms and the direction between them (see DEVELOPERS.md). A room may import itself and the rooms before it.
 */
const rooms = ['quantity', 'physics', 'appliance', 'scenario', 'callout', 'diagnosis', 'marking'];
const last = ['review', 'assessment'];

const notLater = rooms.map((room, index) => ({
	name: `${room}-imports-no-later-room`,
	comment: `${room} may import only itself and ${rooms.slice(0, index).join(', ') || 'no other room'}.`,
	severity: 'error',
	from: { path: `^shared/${room}/` },
	to: { path: `^shared/(${[...rooms.slice(index + 1), ...last].join('|')})/` }
}));

module.exports = {
	forbidden: [
		...notLater,
		{
			name: 'shared-never-imports-outside',
			comment: 'The core runs in a browser, a server, a worker and a terminal: no file of src, no Node, no script.',
			severity: 'error',
			from: { path: '^shared/' },
			to: { path: '^(src|scripts|tests)/' }
		},
		{
			name: 'shared-has-no-node',
			comment: 'No clock, no file, no process in the core.',
			severity: 'error',
			from: { path: '^shared/' },
			to: { dependencyTypes: ['core'] }
		},
		{
			name: 'family-known-only-by-the-index',
			comment: 'Nothing outside its folder knows which family it is talking to.',
			severity: 'error',
			from: { path: '^shared/|^src/', pathNot: '^shared/appliance/families/(index\\.ts$|[^/]+/)' },
			to: { path: '^shared/appliance/families/[^/]+/' }
		},
		{
			name: 'families-do-not-import-each-other',
			severity: 'error',
			from: { path: '^shared/appliance/families/([^/]+)/' },
			to: { path: '^shared/appliance/families/[^/]+/', pathNot: '^shared/appliance/families/$1/' }
		},
		{
			name: 'pages-never-import-the-database',
			comment: 'A page calls one service.',
			severity: 'error',
			from: { path: '^src/(routes/|hooks|lib/(ui|charts|bench)/)' },
			to: { path: '^src/lib/server/database/' }
		},
		{
			name: 'services-only-from-server-files',
			severity: 'error',
			from: {
				path: '^src/',
				pathNot: '^src/lib/server/|^src/hooks\\.server\\.ts$|/\\+(page|layout)\\.server\\.ts$|/\\+server\\.ts$|^src/app\\.d\\.ts$|^src/cli/'
			},
			to: { path: '^src/lib/server/', dependencyTypesNot: ['type-only'] }
		},
		{
			name: 'lucia-behind-one-file',
			severity: 'error',
			from: { pathNot: '^src/lib/server/accounts/sessions\\.ts$' },
			to: { path: 'node_modules/(lucia|@lucia-auth)/' }
		},
		{ name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
		{
			name: 'no-orphans-in-the-core',
			comment: 'A file that nothing imports and that imports nothing does no work.',
			severity: 'error',
			from: { path: '^shared/', orphan: true, pathNot: '\\.d\\.ts$' },
			to: {}
		},
		{
			name: 'everything-resolves',
			severity: 'error',
			from: { pathNot: '\\.svelte$' },
			to: { couldNotResolve: true, pathNot: '^(\\$app|\\$env|\\./\\$types)' }
		}
	],
	options: {
		doNotFollow: { path: 'node_modules' },
		exclude: { path: '\\.svelte-kit|^build/' },
		tsPreCompilationDeps: true,
		tsConfig: { fileName: 'tsconfig.json' },
		webpackConfig: { fileName: '.dependency-cruiser.resolve.cjs' },
		enhancedResolveOptions: {
			exportsFields: ['exports'],
			conditionNames: ['import', 'node', 'default', 'types'],
			extensions: ['.ts', '.js', '.mjs', '.svelte', '.d.ts']
		}
	}
};
