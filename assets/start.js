// The Start page's part in the browser: a throw goes over to Build up, and the address follows the athlete.
(() => {
  const FROM_START = 'buildup-from-start'; // the Build up page's store: written here is its entry in the browser's storage

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    start: {
      // It is in the storage before the page is left.
      plan(given) {
        if (!given) return;
        try {
          sessionStorage.setItem(FROM_START, JSON.stringify(given));
          sessionStorage.setItem(`${FROM_START}-timestamp`, String(Date.now()));
        } catch {
          // storage switched off: then nothing is kept from page to page
        }
        window.dash_clientside.set_props('shell-url', { pathname: '/build-up', search: '' });
      },

      address(query) {
        if (typeof query === 'string') history.replaceState(history.state, '', location.pathname + query);
      },
    },
  });
})();
