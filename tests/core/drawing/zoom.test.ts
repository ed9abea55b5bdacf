import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kept, most, scrollKeeping, stepped, whole } from '$lib/bench/drawing/zoom/zoom';

const phone = { width: 360, height: 610, tall: 1.9 };
const laptop = { width: 600, height: 770, tall: 1.9 };

describe('the size of the drawing', () => {
	it('is whole at the window width or at the screen height, whichever is less', () => {
		expect(whole(laptop) * laptop.width * laptop.tall).toBeCloseTo(770);
		expect(whole({ ...laptop, height: 3000 })).toBe(1);
	});

	it('is never so small that a place could not be hit, unless the window itself is', () => {
		expect(whole({ ...phone, height: 100 }) * phone.width).toBeCloseTo(320);
		expect(whole({ ...phone, width: 300, height: 100 })).toBe(1);
	});

	it('stops at the width of the window on the way down, and at both ends', () => {
		expect(stepped(1.2, 'out', laptop)).toBe(1);
		expect(stepped(1, 'out', laptop)).toBeLessThan(1);
		expect(stepped(whole(laptop), 'out', laptop)).toBe(whole(laptop));
		expect(stepped(most, 'in', laptop)).toBe(most);
	});

	it('reaches the largest from the whole and back in a dozen steps each way', () => {
		let size = whole(laptop);
		for (let i = 0; i < 12; i++) size = stepped(size, 'in', laptop);
		expect(size).toBe(most);
		for (let i = 0; i < 12; i++) size = stepped(size, 'out', laptop);
		expect(size).toBeCloseTo(whole(laptop));
	});

	it('is kept between the whole and the largest whatever is asked', () => {
		fc.assert(
			fc.property(fc.double({ min: 0, max: 1000, noNaN: true }), (wanted) => {
				const size = kept(wanted, phone);
				return size >= whole(phone) && size <= most;
			})
		);
	});

	it('keeps the point under the pointer where it is', () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 0, max: 900 }),
				fc.integer({ min: 0, max: 360 }),
				fc.double({ min: 1, max: 4, noNaN: true }),
				(scrolled, at, ratio) => {
					const onDrawing = (scrolled + at) * ratio;
					expect(onDrawing - scrollKeeping(scrolled, at, ratio)).toBeCloseTo(at);
				}
			)
		);
	});
});
