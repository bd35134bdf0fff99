// The two sheets of a plan, of which one is printed at a time.
(() => {
  window.levelpeak.callbacks({
    buildup: {
      print(pressed) {
        const { triggered_id: from } = window.levelpeak.called;
        if (!pressed.some(Boolean) || !['print', 'log'].includes(from?.name)) return;
        document.documentElement.dataset.sheet = from.name;
        window.print();
      },
    },
  });

  addEventListener('afterprint', () => { delete document.documentElement.dataset.sheet; });
})();
