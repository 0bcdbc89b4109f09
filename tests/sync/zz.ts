import { groundOf, modelDesk, START_MS } from './model-desk.ts';
import { run } from './run.ts';
const [from, to] = [Number(process.argv[2]), Number(process.argv[3] ?? process.argv[2])];
const t0 = Date.now(); let bad = 0; const sum: any = {};
for (let seed = from; seed <= to; seed++) {
  const clock = { now: START_MS }; const ground = groundOf(seed, 4); const desk = modelDesk(ground, clock);
  try { const told: any = await run({ seed, ground, desk, clock, steps: 80, ...(seed % 100 === 0 ? { weekOffline: 2000 } : {}) }); for (const k in told) sum[k] = (sum[k] ?? 0) + told[k]; }
  catch (e: any) { bad++; if (bad < 8) console.log(seed, String(e.message).slice(0, 400), from === to ? e.stack : '');
    if (from === to) { const id = String(e.message).slice(0, 36); for (const [k, c] of desk.model.state.commands) if (k === id || JSON.stringify(c.envelope).includes(id)) console.log(k, c.state, c.userId, c.text, c.problem?.title, desk.model.state.attention.has(k)); } }
}
console.log({ bad, ms: Date.now() - t0, ...sum });
