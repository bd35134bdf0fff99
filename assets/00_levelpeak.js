// The one name of the pages' scripts: what they share stands in it, and what Dash calls in the browser is told by it.
Object.defineProperties(window.levelpeak, Object.getOwnPropertyDescriptors({
  // Functions that Dash calls, by a room and their name.
  callbacks(rooms) {
    window.dash_clientside = Object.assign({}, window.dash_clientside, rooms);
  },

  // Set properties of a component, as an answer of the server would.
  set(id, properties) {
    window.dash_clientside.set_props(id, properties);
  },

  // A callback's answer that changes nothing.
  get still() {
    return window.dash_clientside.no_update;
  },

  // What called the callback that runs.
  get called() {
    return window.dash_clientside.callback_context;
  },
}));
