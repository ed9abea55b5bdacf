/** What src/routes offers, read from its files: by route, `GET` where there is something to look at, and the names of actions and methods. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { rootFolder } from '$lib/server/folders.ts';

const folder = join(rootFolder, 'src', 'routes');
const methods = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'HEAD', 'fallback'];

export function routesOnDisk(): Record<string, string[]> {
	const routes: Record<string, Set<string>> = {};
	const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter(
		(one) => one.isFile() && /^\+(page|server)\b/.test(one.name)
	);
	for (const { parentPath, name } of files) {
		const segments = parentPath
			.slice(folder.length)
			.split('/')
			.filter((one) => one !== '' && !/^\(.*\)$/.test(one));
		const keys = (routes[`/${segments.join('/')}`] ??= new Set());
		const text = readFileSync(join(parentPath, name), 'utf8');
		if (name.startsWith('+page')) keys.add('GET');
		if (name === '+page.server.ts') actionsIn(text).forEach((one) => keys.add(one));
		if (name === '+server.ts') exportsOf(text).forEach(({ name }) => methods.includes(name) && keys.add(name));
	}
	return Object.fromEntries(Object.entries(routes).map(([route, keys]) => [route, [...keys].sort()]));
}

/** @throws Error where they are put together in a way that cannot be read off the file */
export function actionsIn(text: string): string[] {
	const actions = exportsOf(text).find(({ name }) => name === 'actions');
	if (!actions) return [];
	let value = actions.value;
	while (value && (ts.isSatisfiesExpression(value) || ts.isAsExpression(value) || ts.isParenthesizedExpression(value)))
		value = value.expression;
	if (!value || !ts.isObjectLiteralExpression(value)) throw new Error(`actions are no object that can be read: ${text}`);
	return value.properties.map(({ name }) => {
		if (!name || !(ts.isIdentifier(name) || ts.isStringLiteral(name))) throw new Error(`an action without a plain name: ${text}`);
		return name.text;
	});
}

function exportsOf(text: string): { name: string; value?: ts.Expression }[] {
	const file = ts.createSourceFile('file.ts', text, ts.ScriptTarget.Latest, true);
	return file.statements.flatMap((statement) => {
		if (ts.isExportDeclaration(statement)) throw new Error(`what is exported from elsewhere cannot be read: ${text}`);
		const isExported =
			ts.canHaveModifiers(statement) && ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
		if (!isExported) return [];
		if (ts.isFunctionDeclaration(statement)) return [{ name: statement.name!.text }];
		if (!ts.isVariableStatement(statement)) return [];
		return statement.declarationList.declarations.map(({ name, initializer }) => ({ name: name.getText(file), value: initializer }));
	});
}
