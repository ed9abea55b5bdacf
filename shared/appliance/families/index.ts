/** The families in stock, by the id that data names in `model`. */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import { combiPlatePrimary } from './combi-plate-primary/model.ts';

export const models: Readonly<Record<string, ApplianceModel>> = { [combiPlatePrimary.id]: combiPlatePrimary };
