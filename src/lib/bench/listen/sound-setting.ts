/** Whether sound is wanted, and how loud; kept in this browser. */
export interface SoundSetting {
	readonly on: boolean;
	/** 0 to 1. */
	readonly volume: number;
}

const key = 'provewell-sound';
/** Off until somebody asks. */
const atFirst: SoundSetting = { on: false, volume: 0.5 };

/** @returns what was kept; off where nothing was, where it cannot be read, or where it makes no sense */
export function keptSound(storage: () => Pick<Storage, 'getItem'>): SoundSetting {
	try {
		const said: unknown = JSON.parse(storage().getItem(key) ?? 'null');
		if (typeof said !== 'object' || said === null || !('on' in said) || !('volume' in said)) return atFirst;
		const volume = Number(said.volume);
		return volume >= 0 && volume <= 1 ? { on: said.on === true, volume } : atFirst;
	} catch {
		return atFirst;
	}
}

/** Keeps it where the browser lets us; where it does not, it holds for this page alone. */
export function keepSound(storage: () => Pick<Storage, 'setItem'>, setting: SoundSetting): void {
	try {
		storage().setItem(key, JSON.stringify(setting));
	} catch {
		return;
	}
}
