/** Fault areas: skills cross families with these. */
export const areas = {
	'water-supply': 'Water supply and flow sensing',
	diverting: 'Diverting and zoning',
	'heat-transfer': 'Heat transfer',
	circulation: 'Circulation',
	gas: 'Gas supply and metering',
	air: 'Combustion air, fan and flue',
	flame: 'Ignition and flame proving',
	sensing: 'Temperature sensing and setting',
	electrical: 'Control board, wiring and supply',
	stored: 'Stored hot water and its safety devices',
	user: 'User, installation and advice'
} as const;
export type Area = keyof typeof areas;
