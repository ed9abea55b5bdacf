/** Property tests draw the same cases in every run, so that what passed once passes again. `PROPERTY_SEED=...` draws others; a failure prints its seed. */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 1) });
