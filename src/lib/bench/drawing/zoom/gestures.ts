/** Zooming by hand: wheel with ctrl, two fingers, and the keys + - 0 while the focus is in the drawing. */
import type { Attachment } from 'svelte/attachments';

interface Asked {
	/** Size by this factor, about a point of the screen. */
	by(factor: number, x: number, y: number): void;
	step(direction: 'in' | 'out'): void;
	whole(): void;
}

const apart = ([a, b]: Touch[]) => (a && b ? Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY) : 0);

/** For the window that the drawing is seen through. */
export function pointed(asked: Asked): Attachment<HTMLElement> {
	return (window) => {
		const ends = new AbortController();
		const { signal } = ends;
		let before = 0;
		const wheel = (event: WheelEvent) => {
			if (!event.ctrlKey) return;
			event.preventDefault();
			asked.by(Math.exp(-event.deltaY / 300), event.clientX, event.clientY);
		};
		const begin = (event: TouchEvent) => (before = event.touches.length === 2 ? apart([...event.touches]) : 0);
		const move = (event: TouchEvent) => {
			const [a, b] = event.touches;
			if (!before || !a || !b || !event.cancelable) return;
			event.preventDefault();
			const now = apart([a, b]);
			asked.by(now / before, (a.clientX + b.clientX) / 2, (a.clientY + b.clientY) / 2);
			before = now;
		};
		window.addEventListener('wheel', wheel, { passive: false, signal });
		window.addEventListener('touchstart', begin, { passive: true, signal });
		window.addEventListener('touchmove', move, { passive: false, signal });
		window.addEventListener('touchend', begin, { passive: true, signal });
		return () => ends.abort();
	};
}

/** For whatever holds the focus when its keys are meant: the drawing and its controls. */
export function keyed(asked: Asked): Attachment<HTMLElement> {
	return (holder) => {
		const press = (event: KeyboardEvent) => {
			if (event.ctrlKey || event.metaKey || event.altKey) return;
			if (event.key === '+' || event.key === '=') asked.step('in');
			else if (event.key === '-') asked.step('out');
			else if (event.key === '0') asked.whole();
			else return;
			event.preventDefault();
		};
		holder.addEventListener('keydown', press);
		return () => holder.removeEventListener('keydown', press);
	};
}
