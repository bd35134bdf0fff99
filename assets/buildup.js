// What is typed after a session, written down as it changes: by the time another page opens, it is kept.
(() => {
  const MOST_KEPT = 12; // sessions whose fields are kept, of all plans
  const VERSION = 1; // of app/buildup/log_form.py, which reads it

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    buildup: {
      typed(pains, held, signs, decision, logDay, daysOff, by, note, of, kept) {
        if (!of) return window.dash_clientside.no_update; // the fields are of no session yet
        const [before, after, morning] = pains;
        const values = { before, after, morning, held, signs: (signs ?? []).join('|'), decision, log_day: logDay, days_off: daysOff, by, note };
        const form = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value ?? '']));
        const [mark, session] = of.split('/');
        const others = Object.entries(kept ?? {}).filter(([key]) => {
          const [itsMark, its] = key.split('/');
          return key !== of && (itsMark !== mark || Number(its) > Number(session)); // one before it is in the log
        });
        if (Object.values(form).some(Boolean)) others.push([of, { version: VERSION, ...form }]);
        return Object.fromEntries(others.slice(-MOST_KEPT));
      },
    },
  });
})();
