/** Heating has been on for a while before anyone measures it: radiators start this far above the room [K]. Invented. */
export const RADIATORS_ABOVE_ROOM_K = 20;
