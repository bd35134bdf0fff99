// The Compare page's part in the browser: what was drawn, and the figure on paper.
(() => {
  let onPaper = null;

  // Every quantity is asked for while its fold is open, and again for what was drawn last.
  const askEvery = () => {
    const fold = document.getElementById('compare-every');
    if (fold) window.levelpeak.set('compare-every-open', { data: fold.open ? Date.now() : null });
  };

  window.levelpeak.callbacks({
    compare: {
      // What was drawn is put into words once its curves are on the screen: they wait for nothing.
      drawn(figure) {
        const version = figure?.layout?.meta?.version;
        if (!version) return window.levelpeak.still;
        return new Promise((resolve) => {
          const later = () => setTimeout(() => {
            window.dash_clientside.curves.ready();
            resolve(version);
            if (document.getElementById('compare-every')?.open) askEvery();
          });
          if (document.hidden) later();
          else requestAnimationFrame(later);
        });
      },

      paper(figure) {
        onPaper = figure;
      },
    },
  });

  document.addEventListener('toggle', ({ target }) => {
    if (target.id === 'compare-every') askEvery();
  }, true);

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
