// What a version without records left in this browser: read for the offer to take it in, and put away after the answer.
(() => {
  const HELD = { compare: 'compare-saved', athlete: 'athlete-saved' };
  const OLD_PLAN = 'buildup-plan';
  const REST = ['map-saved', 'claim-saved', 'start-saved', 'teach-saved', 'buildup-saved', 'buildup-log-typed', 'buildup-known'];

  const forget = () => {
    for (const key of [...Object.values(HELD), OLD_PLAN, ...REST]) {
      for (const storage of [sessionStorage, localStorage]) {
        storage.removeItem(key);
        storage.removeItem(`${key}-timestamp`);
      }
    }
  };

  window.levelpeak.callbacks({
    oldTab: {
      held() {
        const found = Object.entries(HELD).map(([name, key]) => [name, sessionStorage.getItem(key)]);
        found.push(['plan', localStorage.getItem(OLD_PLAN)]);
        const there = found.filter(([, text]) => text && text !== 'null');
        return there.length ? Object.fromEntries(there) : window.levelpeak.still;
      },

      forget(data) {
        if (!data?.forget) return;
        forget();
        window.levelpeak.set('bind-refresh', { data: { said: data.said, at: Date.now() } });
      },
    },
  });
})();
