// Callbacks of the shell that need no server.
(() => {
  let arrived = false;
  const filled = new WeakMap();

  // A control and its kept value say the same. Whichever was touched sets the other; at the start the kept one leads.
  const together = (kept, shown, control) => {
    const still = window.dash_clientside.no_update;
    const touched = window.dash_clientside.callback_context.triggered_id === control;
    return touched ? [shown, still, shown] : [still, kept, kept];
  };

  const tell = (reason) =>
    window.dash_clientside.set_props('shell-notice', {
      sendNotifications: [
        {
          action: 'show',
          id: 'no-answer',
          title: 'Not changed',
          message: `${reason} Everything you entered is still there.`,
          color: 'gray',
          autoClose: false,
          closeButtonProps: { 'aria-label': 'Close' },
        },
      ],
    });

  // A question that gets no answer, or a refusal, would otherwise show in the console alone.
  const ask = window.fetch;
  let open = 0; // questions without an answer yet
  let answered = -Infinity; // when the last answer came
  window.fetch = async (...question) => {
    open += 1;
    try {
      const answer = await ask(...question);
      if (answer.status === 413) tell('That was more than Levelpeak takes at once.');
      else if (!answer.ok) tell('Levelpeak could not work this out; its log, in the terminal, says why.');
      return answer;
    } catch (error) {
      tell('Levelpeak does not answer. If it was ended in the terminal, start it again.');
      throw error;
    } finally {
      open -= 1;
      answered = performance.now();
    }
  };

  // Until what was just changed stands on the screen: all is answered, and was long enough to be drawn.
  const DRAWN_MS = 100;
  const settled = async () => {
    while (open > 0 || performance.now() - answered < DRAWN_MS) await new Promise((wake) => setTimeout(wake, 20));
  };
  Object.assign(window.levelpeak, { settled });

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    shell: {
      theme(kept, shown) {
        const [store, control, theme] = together(kept, shown, 'shell-theme-switch');
        return [store, control, window.levelpeak.wear(theme)];
      },

      units(kept, shown) {
        return together(kept, shown, 'shell-units-switch').slice(0, 2);
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

      // Another page: its title on the tab, and whoever reads by ear or keyboard starts at its beginning.
      arrive(title) {
        if (!title) return;
        document.title = title;
        if (arrived) document.getElementById('shell-main').focus();
        arrived = true;
      },
    },
  });
})();
