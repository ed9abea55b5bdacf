import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const folder = `${root}shared/physics/`;

interface Export {
	readonly name: string;
	readonly isFunction: boolean;
	readonly parameters: readonly string[];
	readonly doc: string;
}

/** Functions and constants that a source file exports, each with its docstring. */
function exportsOf(text: string): Export[] {
	const source = ts.createSourceFile('source.ts', text, ts.ScriptTarget.ES2023, true);
	const found: Export[] = [];
	for (const statement of source.statements) {
		const isExported = ts.canHaveModifiers(statement) && ts.getModifiers(statement)?.some((m) => m.kind === ts.SyntaxKind.ExportKeyword);
		if (!isExported) continue;
		const doc = ts
			.getJSDocCommentsAndTags(statement)
			.map((part) => part.getText())
			.join('\n');
		if (ts.isFunctionDeclaration(statement) && statement.name) {
			const parameters = statement.parameters.map((parameter) => parameter.name.getText());
			found.push({ name: statement.name.text, isFunction: true, parameters, doc });
		}
		if (ts.isVariableStatement(statement)) {
			for (const declaration of statement.declarationList.declarations) {
				found.push({ name: declaration.name.getText(), isFunction: false, parameters: [], doc });
			}
		}
	}
	return found;
}

/** What is missing from the docstring of an export. */
function faultsOf({ name, isFunction, parameters, doc }: Export, readTest: (path: string) => string | undefined): string[] {
	const faults: string[] = [];
	if (!doc) return [`${name} has no docstring`];
	if (!/\[[^\]]+\]/.test(doc)) faults.push(`${name} names no unit in brackets`);
	const see = /@see ([\s\S]*?)(?=\n\s*\* @|\*\/)/.exec(doc)?.[1];
	const test = see === undefined ? undefined : /checked in (tests\/[\w/-]+\.test\.ts)/.exec(see)?.[1];
	if (see === undefined) faults.push(`${name} has no @see`);
	else if (test === undefined) faults.push(`${name}: @see names no test file`);
	else if (!readTest(test)) faults.push(`${name}: ${test} does not exist`);
	else if (!new RegExp(`\\b${name}\\b`).test(readTest(test) ?? '')) faults.push(`${name} is not used in ${test}`);
	if (!isFunction) return faults;
	if (!/@returns/.test(doc) && !/@throws/.test(doc)) faults.push(`${name} does not say what it returns`);
	for (const parameter of parameters) {
		// A whole object, a curve or a gas carries its units in its own type.
		const isData = ['plate', 'flue', 'gas', 'curve', 'id'].includes(parameter);
		if (!isData && !new RegExp(`@param ${parameter}\\s[^@]*\\[[^\\]]+\\]`).test(doc))
			faults.push(`${name}: parameter ${parameter} has no unit`);
	}
	return faults;
}

const readFromRoot = (path: string) => (existsSync(root + path) ? readFileSync(root + path, 'utf8') : undefined);

describe('every export of the physics says its equation, units, source and where it is checked', () => {
	const files = readdirSync(folder).filter((name) => name.endsWith('.ts'));

	it.each(files)('%s', (file) => {
		const found = exportsOf(readFileSync(folder + file, 'utf8'));
		expect(found.length).toBeGreaterThan(0);
		expect(found.flatMap((one) => faultsOf(one, readFromRoot))).toEqual([]);
	});
});

describe('the examination itself', () => {
	const faultsIn = (text: string) =>
		exportsOf(text).flatMap((one) => faultsOf(one, (path) => (path === 'tests/a.test.ts' ? 'double(2)' : undefined)));

	it('passes a sound docstring', () => {
		const sound =
			'/**\n * @param x [m]\n * @returns [m]\n * @see Euclid; checked in tests/a.test.ts\n */\nexport function double(x: number) { return 2 * x; }';
		expect(faultsIn(sound)).toEqual([]);
	});

	it.each([
		['export function double(x: number) { return 2 * x; }', 'double has no docstring'],
		['/** @param x [m]\n * @returns [m] */\nexport function double(x: number) { return 2 * x; }', 'double has no @see'],
		[
			'/** @param x [m]\n * @returns [m]\n * @see Euclid */\nexport function double(x: number) { return 2 * x; }',
			'double: @see names no test file'
		],
		[
			'/** @param x [m]\n * @returns [m]\n * @see Euclid; checked in tests/b.test.ts */\nexport function double(x: number) { return 2 * x; }',
			'double: tests/b.test.ts does not exist'
		],
		[
			'/** @param x [m]\n * @returns [m]\n * @see Euclid; checked in tests/a.test.ts */\nexport function treble(x: number) { return 3 * x; }',
			'treble is not used in tests/a.test.ts'
		],
		[
			'/** @param x length\n * @returns [m]\n * @see Euclid; checked in tests/a.test.ts */\nexport function double(x: number) { return 2 * x; }',
			'double: parameter x has no unit'
		],
		['/** @see Euclid; checked in tests/a.test.ts */\nexport const double = 2;', 'double names no unit in brackets']
	])('finds the fault in %j', (text, fault) => {
		expect(faultsIn(text)).toEqual([fault]);
	});
});
