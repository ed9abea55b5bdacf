/** Timing for the bench: medians with their spread, and as ratios to a fixed piece of arithmetic timed in the same run. */

export interface Timed {
	readonly name: string;
	readonly medianMs: number;
	/** The middle half lies between these. */
	readonly fromMs: number;
	readonly toMs: number;
	readonly runs: number;
}

/** @param work one run; what it needs beforehand is prepared outside */
export function timed(name: string, runs: number, work: (run: number) => unknown): Timed {
	work(0);
	const taken = Array.from({ length: runs }, (_, run) => {
		const from = performance.now();
		work(run);
		return performance.now() - from;
	});
	return spreadOf(name, taken);
}

export function spreadOf(name: string, taken: readonly number[]): Timed {
	const sorted = [...taken].sort((a, b) => a - b);
	const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))];
	return { name, medianMs: at(0.5), fromMs: at(0.25), toMs: at(0.75), runs: taken.length };
}

/** A million multiplications and square roots: what a machine does whatever the product does. */
export function arithmetic(): number {
	let sum = 0;
	for (let i = 1; i <= 1_000_000; i++) sum += Math.sqrt(i * 1.000001);
	return sum;
}

const ms = (value: number) => (value < 10 ? value.toFixed(3) : value.toFixed(0));

export function printTimes(times: readonly Timed[], baseline: Timed): void {
	console.log(
		`${'what'.padEnd(52)}${'median ms'.padStart(11)}${'middle half'.padStart(20)}${'runs'.padStart(7)}${'x baseline'.padStart(12)}`
	);
	for (const one of times) {
		const half = `${ms(one.fromMs)} to ${ms(one.toMs)}`;
		const ratio = (one.medianMs / baseline.medianMs).toFixed(3);
		console.log(
			`${one.name.padEnd(52)}${ms(one.medianMs).padStart(11)}${half.padStart(20)}${String(one.runs).padStart(7)}${ratio.padStart(12)}`
		);
	}
}
