/** Links by which a cohort is joined, and the same as a picture to point a phone at. */
import { renderSVG } from 'uqr';

export interface JoinLink {
	readonly code: string;
	readonly link: string;
	/** A data URL of an SVG picture: black on white whatever the theme, since cameras read that best, with the quiet edge that they need. */
	readonly picture: string;
}

/** @param origin  of this server as its visitors know it */
export function joinLink(origin: string, code: string): JoinLink {
	const link = `${origin}/join/${code}`;
	const svg = renderSVG(link, { ecc: 'M', border: 4, whiteColor: '#fff', blackColor: '#000' });
	return { code, link, picture: `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}` };
}
