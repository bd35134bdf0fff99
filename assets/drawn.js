// What pages with a figure of their own share in the browser: its width, and the figure on paper. A figure `NAME-figure`
// has its stores `NAME-width` and `NAME-paper`.
(() => {
  const onPaper = {}; // figures as they are printed, by the id of their graph
  const shown = new WeakMap();

  // Labels stand where there is room for them: that depends on the figure's width, told in whole steps.
  const rounded = (width) => 20 * Math.round(width / 20);
  let told = 0;
  let teller = '';
  // A window on its way to another size is not asked to draw: what counts is where it comes to rest.
  const REST_MS = 200;
  let resting;
  const watch = new ResizeObserver(([figure]) => {
    clearTimeout(resting);
    const width = rounded(figure.contentRect.width);
    if (!width || width === told) return;
    resting = setTimeout(() => {
      if (!figure.target.isConnected) return; // another page since
      told = width;
      window.levelpeak.set(teller, { data: width });
    }, REST_MS);
  });

  window.levelpeak.callbacks({
    drawn: {
      print(pressed) {
        if (pressed) window.print();
      },

      width(store) {
        // What stands around the graph is watched: the graph itself is made anew once its library has come.
        const figure = document.getElementById(store.replace(/-width$/, '-figure')).parentElement;
        teller = store;
        watch.disconnect();
        watch.observe(figure);
        told = rounded(figure.clientWidth);
        return told || null;
      },

      paper(figure, store) {
        onPaper[store.replace(/-paper$/, '-figure')] = figure;
      },
    },
  });

  // A printed figure is made for white paper and its width, whatever the screen wears; afterwards all is as it was.
  const figures = () =>
    Object.keys(onPaper).flatMap((id) => [...document.querySelectorAll(`#${id} .js-plotly-plot, #${id}.js-plotly-plot`)]);
  const paperOf = (graph) => onPaper[graph.closest('[id$="-figure"]').id];

  addEventListener('beforeprint', () => {
    for (const graph of figures()) {
      const paper = paperOf(graph);
      if (!paper?.layout) continue;
      shown.set(graph, { data: graph.data, layout: graph.layout });
      window.Plotly.react(graph, paper.data, paper.layout);
    }
  });

  addEventListener('afterprint', () => {
    for (const graph of figures()) {
      if (!shown.has(graph)) continue;
      const { data, layout } = shown.get(graph);
      shown.delete(graph);
      window.Plotly.react(graph, data, layout).then(() => window.Plotly.Plots.resize(graph));
    }
  });
})();
