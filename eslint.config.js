import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

export default ts.config(
	{ ignores: ['node_modules/', '.svelte-kit/', 'build/', 'data/', 'test-results/', 'migrations/'] },
	...ts.configs.recommended,
	...svelte.configs.recommended,
	{
		languageOptions: { globals: { ...globals.node, ...globals.browser } },
		rules: {
			// The compiler knows what is defined; this rule does not know types.
			'no-undef': 'off',
			'no-console': ['error', { allow: ['error'] }],
			eqeqeq: 'error',
			'@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true }],
			'@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'separate-type-imports' }]
		}
	},
	{
		files: ['**/*.svelte', '**/*.svelte.ts'],
		languageOptions: { parserOptions: { extraFileExtensions: ['.svelte'], parser: ts.parser, svelteConfig } },
		rules: {
			// The product is served from the root of its own address.
			'svelte/no-navigation-without-resolve': 'off'
		}
	},
	{
		// Whatever a core function needs of the outside is an argument.
		files: ['shared/**/*.ts'],
		rules: {
			'no-restricted-properties': [
				'error',
				{ object: 'Math', property: 'random', message: 'The core draws from a seed.' },
				{ object: 'Date', property: 'now', message: 'The core has no clock.' }
			],
			'no-restricted-globals': ['error', 'Date', 'performance', 'process', 'console', 'globalThis']
		}
	},
	{
		files: ['tests/**/*.ts'],
		rules: {
			'no-restricted-properties': [
				'error',
				...['describe', 'it', 'test'].flatMap((object) =>
					['skip', 'only', 'todo'].map((property) => ({ object, property, message: 'Every test runs.' }))
				)
			]
		}
	},
	// These speak to a person at a terminal.
	{ files: ['scripts/**', 'src/cli/**', 'tests/bench/**'], rules: { 'no-console': 'off' } }
);
