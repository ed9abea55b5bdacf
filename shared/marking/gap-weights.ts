/** From when on a prediction counts as right, and a reading as telling. Each is a *judgement of ours*. */

/** Share of a fault's machines from which what they read is what the fault reads. */
export const mostly = 0.75;
/** Share of them from which a prediction is right for some. */
export const some = 0.25;
/** Share of a fault's machines that the usual span of a number holds: as a sound appliance's band, nine in ten. */
export const usualShare = 0.9;
/** Share of them from which a word is one that the fault reads at times. */
export const atTimes = 0.05;
/** How many times likelier one fault makes a reading than another, from which it leans to it, and speaks for it. */
export const leansFrom = 2;
export const speaksFrom = 5;
/** Nothing above this is told in figures: the table has no more to say. */
export const mostTimes = 50;
/** Standard deviations of the instrument by which a reading may lie outside a span and still belong to it. */
export const nearEnough = 2;
