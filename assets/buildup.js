// The two sheets of a plan, of which one is printed at a time.
(() => {
  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    buildup: {
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
