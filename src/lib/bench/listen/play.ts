/** Plays a sound plan in the browser. Loaded only when somebody asks to hear something. */
import type { SoundPlan } from './sound-plan';

export interface Playing {
	/** Played seconds so far. */
	at(): number;
	setVolume(volume: number): void;
	stop(): void;
	/** Settles when the plan has been played to its end, or was stopped. */
	readonly ended: Promise<void>;
}

const noiseS = 2;
const leadS = 0.08;
/** Nothing starts or ends faster than this, or it clicks. */
const softS = 0.03;

/** @param volume 0 to 1 */
export function play(plan: SoundPlan, volume: number): Playing {
	const context = new AudioContext();
	const master = new GainNode(context, { gain: loudness(volume) });
	master.connect(context.destination);
	const begin = context.currentTime + leadS;
	const noise = noiseOf(context);
	fan(context, master, noise, plan, begin);
	burner(context, master, noise, plan, begin);
	ticks(context, master, noise, plan, begin);
	water(context, master, noise, plan, begin);

	let stop = () => {};
	const ended = new Promise<void>((settle) => {
		// A silent source of the plan's length tells the end by the sound's own clock.
		const clock = new ConstantSourceNode(context, { offset: 0 });
		stop = () => {
			if (context.state !== 'closed') void context.close();
			settle();
		};
		clock.addEventListener('ended', () => stop());
		clock.connect(master);
		clock.start(begin);
		clock.stop(begin + plan.seconds);
	});
	return {
		at: () => Math.min(plan.seconds, Math.max(0, context.currentTime - begin)),
		setVolume: (wanted) => master.gain.setTargetAtTime(loudness(wanted), context.currentTime, softS),
		stop: () => stop(),
		ended
	};
}

/** Hearing is nearer to a power than to a line. */
const loudness = (volume: number) => volume ** 2;

function noiseOf(context: AudioContext): AudioBuffer {
	const buffer = new AudioBuffer({ length: noiseS * context.sampleRate, sampleRate: context.sampleRate });
	const samples = buffer.getChannelData(0);
	for (let i = 0; i < samples.length; i++) samples[i] = 2 * Math.random() - 1;
	return buffer;
}

/** Noise through a filter, from the start to the end of the plan, silent until its gain is set. */
function filtered(context: AudioContext, to: AudioNode, buffer: AudioBuffer, filter: BiquadFilterOptions, begin: number, seconds: number) {
	const source = new AudioBufferSourceNode(context, { buffer, loop: true });
	const shape = new BiquadFilterNode(context, filter);
	const gain = new GainNode(context, { gain: 0 });
	source.connect(shape).connect(gain).connect(to);
	source.start(begin);
	source.stop(begin + seconds);
	return { frequency: shape.frequency, gain: gain.gain };
}

function fan(context: AudioContext, to: AudioNode, noise: AudioBuffer, { fan, seconds }: SoundPlan, begin: number): void {
	if (fan.length === 0) return;
	const whine = new OscillatorNode(context, { type: 'sawtooth', frequency: 0 });
	const whineGain = new GainNode(context, { gain: 0 });
	const soft = new BiquadFilterNode(context, { type: 'lowpass', frequency: 1400 });
	whine.connect(soft).connect(whineGain).connect(to);
	const air = filtered(context, to, noise, { type: 'bandpass', Q: 0.7 }, begin, seconds);
	for (const point of fan) {
		whine.frequency.linearRampToValueAtTime(point.whineHz, begin + point.at);
		whineGain.gain.linearRampToValueAtTime(point.whineGain, begin + point.at);
		air.frequency.linearRampToValueAtTime(point.airHz, begin + point.at);
		air.gain.linearRampToValueAtTime(point.airGain, begin + point.at);
	}
	whine.start(begin);
	whine.stop(begin + seconds);
}

function burner(context: AudioContext, to: AudioNode, noise: AudioBuffer, { burner, seconds }: SoundPlan, begin: number): void {
	if (burner.length === 0) return;
	const rumble = filtered(context, to, noise, { type: 'lowpass', frequency: 160, Q: 1.2 }, begin, seconds);
	for (const { at, gain } of burner) rumble.gain.setTargetAtTime(gain, begin + at, softS);
}

function ticks(context: AudioContext, to: AudioNode, noise: AudioBuffer, { ticks }: SoundPlan, begin: number): void {
	for (const { at, gain } of ticks) {
		const spark = filtered(context, to, noise, { type: 'highpass', frequency: 2600 }, begin + at, softS);
		spark.gain.setValueAtTime(gain, begin + at);
		spark.gain.exponentialRampToValueAtTime(0.001, begin + at + 0.02);
	}
}

function water(context: AudioContext, to: AudioNode, noise: AudioBuffer, { water, seconds }: SoundPlan, begin: number): void {
	if (water === 0) return;
	const rush = filtered(context, to, noise, { type: 'bandpass', frequency: 2400, Q: 0.5 }, begin, seconds);
	rush.gain.setTargetAtTime(water, begin, softS);
}
