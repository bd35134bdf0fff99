// The Compare page's part in the browser: what was drawn, where the focus goes, and the figure on paper.
(() => {
  let onPaper = null;

  // The forms that were drawn, as text: the one now, those before it, and those gone back from.
  const MOST_STEPS = 100;
  let now = null;
  let past = [];
  let future = [];

  const remember = (form) => {
    const text = JSON.stringify(form);
    if (text !== now && now !== null) {
      past = [...past.slice(-MOST_STEPS + 1), now];
      future = [];
    }
    now = text;
    tellSteps();
  };

  const tellSteps = () => {
    window.dash_clientside.set_props('compare-undo', { disabled: past.length === 0 });
    window.dash_clientside.set_props('compare-redo', { disabled: future.length === 0 });
  };

  addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || !document.querySelector('.compare')) return;
    if (event.target.closest?.('input:not([type=radio], [type=range]), textarea')) return; // there it is the typing that is undone
    const back = event.key === 'z' && !event.shiftKey;
    const forward = event.key === 'y' || (event.key.toLowerCase() === 'z' && event.shiftKey);
    if (!back && !forward) return;
    event.preventDefault();
    document.getElementById(back ? 'compare-undo' : 'compare-redo').click();
  });

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    compare: {
      // The readings that the Athlete page keeps: what a throw held on the speed profile rests on.
      profiles() {
        try {
          return JSON.parse(sessionStorage.getItem('athlete-saved'));
        } catch {
          return null; // storage switched off, or an entry that is not ours
        }
      },

      // The form that was drawn is kept, and then put into words, once its curves are on the screen: they wait for nothing.
      drawn(figure) {
        const form = figure?.layout?.meta?.form;
        if (!form) return window.dash_clientside.no_update;
        return new Promise((resolve) => {
          const later = () => setTimeout(() => {
            window.dash_clientside.curves.ready();
            remember(form);
            resolve(form);
          });
          if (document.hidden) later();
          else requestAnimationFrame(later);
        });
      },

      // One step back or forward through the forms that were drawn; a change that is on its way is one of them.
      async step() {
        const id = window.dash_clientside.callback_context.triggered_id;
        await window.levelpeak.settled();
        const [from, to] = id === 'compare-undo' ? [past, future] : [future, past];
        if (from.length === 0) return window.dash_clientside.no_update;
        to.push(now);
        now = from.pop();
        tellSteps();
        return { form: JSON.parse(now), at: Date.now() };
      },

      // A notice is of the change just made; once something else is typed, it and its "Put back" are out of date.
      noticed() {
        document.querySelector('.compare .notice')?.removeAttribute('data-past');
      },

      paper(figure) {
        onPaper = figure;
      },

      // After the list was made anew, the focus goes on where the hands were; two frames later it stands.
      focus(target) {
        if (!target) return;
        requestAnimationFrame(() =>
          requestAnimationFrame(() => {
            const control = document.getElementById(target);
            if (control) control.focus();
          }),
        );
      },
    },
  });

  document.addEventListener('toggle', ({ target }) => {
    if (target.id === 'compare-every') window.dash_clientside.set_props('compare-every-open', { data: target.open });
  }, true);

  addEventListener('input', (event) => {
    event.target.closest?.('.compare')?.querySelector('.notice')?.setAttribute('data-past', '');
  });

  // A printed figure is made for white paper and its width, whatever the screen wears; afterwards all is as it was.
  const PAPER = '#fff';
  const figures = () => [...document.querySelectorAll('.compare .graph .js-plotly-plot')];
  const kept = new WeakMap();

  addEventListener('beforeprint', () => {
    for (const graph of figures()) {
      const { layout, colors, widths, texts } = onPaper ?? {};
      if (!layout || colors.length + 1 !== graph.data.length) continue;
      kept.set(graph, { data: graph.data, layout: graph.layout });
      const curves = graph.data.slice(0, -1).map((trace, i) => ({
        ...trace,
        line: { ...trace.line, color: colors[i], width: widths[i] },
        ...(trace.marker && { marker: { ...trace.marker, color: PAPER, line: { ...trace.marker.line, color: colors[i] } } }),
      }));
      window.Plotly.react(graph, [...curves, texts], layout);
    }
  });

  addEventListener('afterprint', () => {
    for (const graph of figures()) {
      if (!kept.has(graph)) continue;
      const { data, layout } = kept.get(graph);
      kept.delete(graph);
      window.Plotly.react(graph, data, layout).then(() => window.Plotly.Plots.resize(graph));
    }
  });
})();
