/** How often a control board looks at its inputs [s]: the grid on which every run is observed. */
export const TICK_S = 0.5;
