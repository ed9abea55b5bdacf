import { smallPack } from './tests/core/scenario/small-family.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { act, start } from '#shared/callout/act.ts';
import { viewOf } from '#shared/callout/view-of.ts';
const p = smallPack(); console.log(p.hash);
const c = makeCallout(p, 3); console.log(c.fault?.id, c.severity, c.complaintSays, c.household);
let s: any = start();
for (const a of [{kind:'demand',demand:'tap'},{kind:'check',check:'tap-temperature'},{kind:'check',check:'element-ohms'},{kind:'step',step:'open-casing'},{kind:'demand',demand:'none'},{kind:'check',check:'element-ohms'},{kind:'prove'}] as any[]) { const n: any = act(c, s, a); if (n.refused) console.log('refused', n.refused); else { s = n; console.log(JSON.stringify(s.events.at(-1))); } }
console.log(JSON.stringify(viewOf(c, s)).length);
