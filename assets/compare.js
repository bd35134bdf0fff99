// The Compare page's part in the browser: narrow windows, where the focus goes, and the figure on paper.
(() => {
  const NARROW = window.matchMedia('(max-width: 640px)');
  const STORE = 'compare-narrow';
  let onPaper = null;

  NARROW.addEventListener('change', (event) => {
    if (document.querySelector('.compare')) window.dash_clientside.set_props(STORE, { data: event.matches });
  });

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    compare: {
      narrow() {
        return NARROW.matches;
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

  // A printed figure is made for white paper and its width, whatever the screen wears; afterwards all is as it was.
  const figures = () => [...document.querySelectorAll('.compare .js-plotly-plot')];
  const kept = new WeakMap();

  addEventListener('beforeprint', () => {
    for (const graph of figures()) {
      const { layout, colors, widths } = onPaper ?? {};
      if (!layout || colors.length !== graph.data.length) continue;
      kept.set(graph, { data: graph.data, layout: graph.layout });
      const data = graph.data.map((trace, i) => ({
        ...trace,
        line: { ...trace.line, color: colors[i], width: widths[i] },
      }));
      window.Plotly.react(graph, data, layout);
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
