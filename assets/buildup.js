// What is typed after a session, written down as it changes: by the time another page opens, it is kept. And the two
// sheets of a plan, of which one is printed at a time.
(() => {
  const MOST_KEPT = 12; // sessions whose fields are kept, of all plans
  const VERSION = 2; // of app/pages/buildup/log_form.py, which reads it
  const BETWEEN = '|'; // what is ticked in one field

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    buildup: {
      typed(values, ids, of, kept) {
        if (!of?.key) return window.dash_clientside.no_update; // the fields are of no session yet
        const text = (value) => (Array.isArray(value) ? value.join(BETWEEN) : String(value ?? ''));
        const form = Object.fromEntries(ids.map((id, i) => [id.name, text(values[i])]));
        const others = Object.entries(kept ?? {}).filter(([key]) => key !== of.key);
        if (Object.values(form).some(Boolean)) others.push([of.key, { version: VERSION, units: of.units, ...form }]);
        return Object.fromEntries(others.slice(-MOST_KEPT));
      },

      print(pressed) {
        const { triggered_id: from } = window.dash_clientside.callback_context;
        if (!pressed.some(Boolean) || !['print', 'log'].includes(from?.name)) return;
        document.documentElement.dataset.sheet = from.name;
        window.print();
      },
    },
  });

  addEventListener('afterprint', () => { delete document.documentElement.dataset.sheet; });
})();
