/** The families in stock, by the id that data names in `model`. */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import { combiPlatePrimary } from './combi-plate-primary/model.ts';
import { combiTapCoil } from './combi-tap-coil/model.ts';

const inStock: readonly ApplianceModel[] = [combiPlatePrimary, combiTapCoil];

export const models: Readonly<Record<string, ApplianceModel>> = Object.fromEntries(inStock.map((model) => [model.id, model]));
