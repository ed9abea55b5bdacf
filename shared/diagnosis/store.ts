/**
 * The evidence table as bytes and back: a line of JSON that says what follows, then plain typed arrays, each on an eight-byte boundary.
 * Little-endian throughout, as are all machines that Node and browsers run on.
 */
import type { Column, EvidenceTable } from './evidence.ts';

/** Raised when the layout or the way rows are sampled changes, so that tables of an older make are made again. */
export const evidenceFormat = 2;

interface Header {
	readonly format: number;
	readonly packHash: string;
	readonly rows: number;
	readonly faults: number;
	readonly healthyRows: number;
	readonly checksum: number;
	readonly columns: readonly {
		readonly check: string;
		readonly demand: Column['demand'];
		readonly healthy: Omit<Column['healthy'], 'values'>;
	}[];
}

const magic = 'PWEV';
const aligned = (bytes: number) => (bytes + 7) & ~7;

/** FNV-1a over 32-bit words: enough to tell a torn or damaged file from a whole one. */
function checksum(body: Uint8Array): number {
	const words = new Uint32Array(body.buffer, body.byteOffset, body.byteLength >> 2);
	let hash = 0x811c9dc5;
	for (const word of words) hash = Math.imul(hash ^ word, 0x01000193);
	return hash >>> 0;
}

type Numbers = Uint16Array | Uint32Array | Float32Array | Float64Array;

const bytesOf = (array: Numbers) => new Uint8Array(array.buffer, array.byteOffset, array.byteLength);

/** The table as bytes. The same table gives the same bytes. */
export function encodeEvidence(table: EvidenceTable): Uint8Array {
	const arrays: Numbers[] = [table.fault, table.severity, table.prior, table.complaints];
	for (const column of table.columns) arrays.push(column.values, column.smoothing, column.healthy.values);
	const body = new Uint8Array(arrays.reduce((sum, array) => sum + aligned(array.byteLength), 0));
	let at = 0;
	for (const array of arrays) {
		body.set(bytesOf(array), at);
		at += aligned(array.byteLength);
	}
	const header: Header = {
		format: evidenceFormat,
		packHash: table.packHash,
		rows: table.rows,
		faults: table.columns[0]?.smoothing.length ?? 0,
		healthyRows: table.columns[0]?.healthy.values.length ?? 0,
		checksum: checksum(body),
		columns: table.columns.map(({ check, demand, healthy }) => ({
			check,
			demand,
			healthy: { mean: healthy.mean, sd: healthy.sd, from: healthy.from, to: healthy.to }
		}))
	};
	const text = asciiBytes(magic + JSON.stringify(header) + '\n');
	const whole = new Uint8Array(8 + aligned(text.length) + body.length);
	new DataView(whole.buffer).setUint32(0, text.length, true);
	whole.set(text, 8);
	whole.set(body, 8 + aligned(text.length));
	return whole;
}

/** Ids and hashes are plain ASCII; anything else is a programmer's error. @throws RangeError */
function asciiBytes(text: string): Uint8Array {
	const bytes = new Uint8Array(text.length);
	for (let i = 0; i < text.length; i++) {
		const code = text.charCodeAt(i);
		if (code > 127) throw new RangeError(`evidence header must be plain ASCII, found "${text[i]}"`);
		bytes[i] = code;
	}
	return bytes;
}

/** @returns the header and where the body starts, or null where the bytes are no evidence of this format */
function readHeader(bytes: Uint8Array): { header: Header; bodyAt: number } | null {
	if (bytes.length < 16) return null;
	const length = new DataView(bytes.buffer, bytes.byteOffset, 8).getUint32(0, true);
	if (length > bytes.length - 8) return null;
	let text = '';
	for (const code of bytes.subarray(8, 8 + length)) text += String.fromCharCode(code);
	if (!text.startsWith(magic)) return null;
	try {
		const header = JSON.parse(text.slice(magic.length)) as Header;
		return header.format === evidenceFormat ? { header, bodyAt: 8 + aligned(length) } : null;
	} catch {
		return null;
	}
}

/**
 * The table that these bytes hold.
 * @param packHash the pack that it must have been made from
 * @returns null where the bytes are torn, damaged, of another pack or of another format: make the table again
 */
export function decodeEvidence(bytes: Uint8Array, packHash: string): EvidenceTable | null {
	const found = readHeader(bytes);
	if (!found || found.header.packHash !== packHash) return null;
	const { rows, faults, healthyRows, columns } = found.header;
	const perColumn = aligned(rows * 4) + aligned(faults * 4) + aligned(healthyRows * 4);
	const expected = aligned(rows * 2) + aligned(rows * 4) * 2 + rows * 8 + columns.length * perColumn;
	if (bytes.length - found.bodyAt !== expected) return null;
	// A copy, so that the typed arrays start on their boundaries wherever the bytes came from. (`slice` of a Node buffer would be a view.)
	const body = new Uint8Array(bytes.subarray(found.bodyAt));
	if (checksum(body) !== found.header.checksum) return null;
	let at = 0;
	const take = (size: number) => {
		const from = at;
		at += aligned(size);
		return from;
	};
	const floats = (length: number) => new Float32Array(body.buffer, take(length * 4), length);
	return {
		packHash,
		rows,
		fault: new Uint16Array(body.buffer, take(rows * 2), rows),
		severity: floats(rows),
		prior: new Float64Array(body.buffer, take(rows * 8), rows),
		complaints: new Uint32Array(body.buffer, take(rows * 4), rows),
		columns: columns.map(({ check, demand, healthy }) => ({
			check,
			demand,
			values: floats(rows),
			smoothing: floats(faults),
			healthy: { ...healthy, values: floats(healthyRows) }
		}))
	};
}
