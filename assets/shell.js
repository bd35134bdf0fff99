// Callbacks of the shell that need no server.
(() => {
  const filled = new WeakMap();

  // A control and its kept value say the same. Whichever was touched sets the other; at the start the kept one leads.
  const together = (kept, shown, control) => {
    const still = window.levelpeak.still;
    const touched = window.levelpeak.called.triggered_id === control;
    return touched ? [shown, still, shown] : [still, kept, kept];
  };

  window.levelpeak.callbacks({
    shell: {
      theme(kept, shown) {
        const [store, control, theme] = together(kept, shown, 'shell-theme-switch');
        return [store, control, window.levelpeak.wear(theme)];
      },

      decimal(kept, shown) {
        const [store, , mark] = together(kept, shown, 'shell-decimal-switch');
        const worn = window.levelpeak.wearDecimal(mark);
        return [store, worn];
      },

      keys(kept, shown) {
        return together(kept, shown, 'shell-keys-switch').slice(0, 2);
      },

      help() {
        return true;
      },

      // Words and tables, in their places; one that stays the same is left alone, and what was unfolded stays so.
      fill(parts) {
        for (const [id, html] of Object.entries(parts ?? {})) {
          const place = document.getElementById(id);
          if (!place || filled.get(place) === html) continue;
          const open = [...place.querySelectorAll('details')].map((fold) => fold.open);
          place.innerHTML = html;
          [...place.querySelectorAll('details')].forEach((fold, i) => { fold.open = open[i] ?? false; });
          filled.set(place, html);
        }
      },

      // The title of the page on the tab.
      arrive(title) {
        if (title) document.title = title;
      },
    },
  });
})();
