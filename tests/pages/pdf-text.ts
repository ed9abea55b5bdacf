/** What stands on the pages of a PDF that Chromium made, without spaces: enough of the format to read that, and no more. */
import { inflateSync } from 'node:zlib';

interface Piece {
	readonly dict: string;
	readonly stream: string | null;
}

interface Font {
	/** Hexadecimal digits of a glyph's number. */
	readonly digits: number;
	readonly letters: ReadonlyMap<number, string>;
}

/** @returns a text for each page, in order, all white space left out */
export function pdfPages(pdf: Buffer): string[] {
	const pieces = piecesOf(pdf.toString('latin1'));
	const at = (reference: string | undefined) => pieces.get(Number(reference));
	const pages = kidsOf(
		[...pieces.values()].find(({ dict }) => /\/Type\s*\/Catalog/.test(dict))!,
		pieces
	);
	return pages.map((page) => {
		const resources = refIn(page.dict, 'Resources') ? at(refIn(page.dict, 'Resources'))!.dict : page.dict;
		const fonts = /\/Font\s*<<([^>]*)>>/.exec(resources)?.[1] ?? at(refIn(resources, 'Font'))?.dict ?? '';
		const maps = new Map(
			[...fonts.matchAll(/\/(\w+)\s+(\d+) 0 R/g)].map(([, name, id]): [string, Font] => {
				const { dict } = at(id)!;
				// Glyphs of a composite font have two bytes each, those of a font drawn from procedures one.
				const digits = /\/Subtype\s*\/Type0/.test(dict) ? 4 : 2;
				return [name!, { digits, letters: lettersOf(at(refIn(dict, 'ToUnicode'))?.stream ?? '') }];
			})
		);
		return textOf(at(refIn(page.dict, 'Contents'))!.stream!, maps).replace(/\s/g, '');
	});
}

function piecesOf(file: string): Map<number, Piece> {
	const found = new Map<number, Piece>();
	for (const { 1: id, 2: body } of file.matchAll(/(?:^|[\r\n])(\d+) 0 obj\b([\s\S]*?)endobj/g)) {
		const [head, dict = body!] = /^([\s\S]*?)stream\r?\n/.exec(body!) ?? [];
		const length = Number(/\/Length\s+(\d+)/.exec(dict)?.[1]);
		const bytes = head === undefined ? null : Buffer.from(body!.slice(head.length, head.length + length), 'latin1');
		const isText = bytes && !/\/Subtype\s*\/Image|\/Length1/.test(dict);
		const stream = isText ? (/FlateDecode/.test(dict) ? inflateSync(bytes) : bytes).toString('latin1') : null;
		found.set(Number(id), { dict, stream });
	}
	return found;
}

const refIn = (dict: string, key: string) => new RegExp(`/${key}\\s+(\\d+) 0 R`).exec(dict)?.[1];

/** The pages under a node of the page tree. */
function kidsOf(node: Piece, pieces: ReadonlyMap<number, Piece>): Piece[] {
	if (/\/Type\s*\/Catalog/.test(node.dict)) return kidsOf(pieces.get(Number(refIn(node.dict, 'Pages')))!, pieces);
	if (!/\/Type\s*\/Pages/.test(node.dict)) return [node];
	const kids = /\/Kids\s*\[([^\]]*)\]/.exec(node.dict)![1]!;
	return [...kids.matchAll(/(\d+) 0 R/g)].flatMap(([, id]) => kidsOf(pieces.get(Number(id))!, pieces));
}

/** Glyphs by their number, from a font's map to Unicode. */
function lettersOf(map: string): ReadonlyMap<number, string> {
	const hex = (text: string) => Number.parseInt(text, 16);
	const said = (text: string) => String.fromCharCode(...text.match(/.{4}/g)!.map(hex));
	const letters = new Map<number, string>();
	for (const [, block] of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
		for (const [, glyph, text] of block!.matchAll(/<(\w+)>\s*<(\w+)>/g)) letters.set(hex(glyph!), said(text!));
	for (const [, block] of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
		for (const [, from, to, text] of block!.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g))
			for (let glyph = hex(from!); glyph <= hex(to!); glyph++) letters.set(glyph, String.fromCharCode(hex(text!) + glyph - hex(from!)));
	return letters;
}

function textOf(content: string, fonts: ReadonlyMap<string, Font>): string {
	let text = '';
	let font: Font | undefined;
	for (const [, name, glyphs] of content.matchAll(/\/(\w+)\s+[\d.]+\s+Tf|<([\da-fA-F]+)>/g)) {
		if (name) font = fonts.get(name);
		else if (font)
			for (let i = 0; i < glyphs!.length; i += font.digits)
				text += font.letters.get(Number.parseInt(glyphs!.slice(i, i + font.digits), 16)) ?? '';
	}
	return text;
}
