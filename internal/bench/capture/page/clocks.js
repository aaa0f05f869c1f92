// Clocks and steps as they will be once the slips that wait have arrived.

// pending are the slips that the workroom's answer of that moment does not
// show: those that wait, and those that were kept since.
export function pending(slips, asked) {
  return slips.filter((one) => one.state === "waiting" || (one.state === "kept" && one.at >= asked));
}

// clocksWith are the workroom's clocks with what this phone has done since.
// Times are by this phone's clock; skew is how far the workroom's is ahead.
export function clocksWith(clocks, slips, skew, builds) {
  const out = clocks.map((c) => ({ ...c, since: c.since - skew, running: c.running ? c.running - skew : 0 }));
  for (const one of slips) {
    const { kind, build, step, at } = one.slip;
    const i = out.findIndex((c) => c.build === build && c.step === step);
    if (kind === "on" && i < 0) {
      const words = builds[build]?.steps.find((s) => s.id === step)?.words;
      out.push({ build, step, words: words || step, since: at, counted: 0, running: at });
    } else if (kind === "on" && !out[i].running) {
      out[i].running = at;
    } else if (kind === "pause" && i >= 0 && out[i].running) {
      out[i].counted += Math.max(0, Math.floor((at - out[i].running) / 1000));
      out[i].running = 0;
    } else if ((kind === "off" || kind === "drop") && i >= 0) {
      out.splice(i, 1);
    }
  }
  return out;
}

// spentOf is what a clock has counted, in milliseconds.
export function spentOf(clock, now = Date.now()) {
  return clock.counted * 1000 + (clock.running ? Math.max(0, now - clock.running) : 0);
}

// stateWith is how far a step is.
export function stateWith(step, build, clocks, slips) {
  const clock = clocks.find((c) => c.build === build && c.step === step.id);
  if (clock) return clock.running ? "under way" : "resting";
  let state = step.state;
  for (const { slip } of slips) {
    if (slip.build !== build || slip.step !== step.id) continue;
    if (slip.kind === "done" || slip.done) return "done";
    if ((slip.kind === "off" || slip.kind === "time") && state === "to do") state = "under way";
  }
  return state;
}
