// The thrower as a line figure: joint centres at a phase, seen from a side of one's choice by a projection of our own.
// Shared by all pages that draw the thrower.
Object.assign(window.levelpeak, {
  arm: (() => {
    const SVG = 'http://www.w3.org/2000/svg';
    const LINKS = [['hips', 'neck'], ['other_shoulder', 'shoulder'], ['shoulder', 'elbow'], ['elbow', 'wrist'], ['wrist', 'ball']];
    const RADIANS = Math.PI / 180;
    const PAD_M = 0.06;
    // Where the viewer stands: degrees round the upright axis from the thrower's throwing side, and degrees above.
    const VIEWS = { side: { turn: 0, tilt: 0 }, front: { turn: 90, tilt: 0 }, top: { turn: 0, tilt: 90 } };

    const mixed = (one, other, share) => one.map((value, i) => value + share * (other[i] - value));

    // Vectors over phase, straight between the given phases.
    const at = (every, phases, phase) => {
      const step = phases[1] - phases[0];
      const i = Math.min(Math.max(Math.floor(phase / step), 0), phases.length - 2);
      return mixed(every[i], every[i + 1], Math.min(Math.max(phase / step - i, 0), 1));
    };

    // Places at a phase, seen by one who walks along with the hips. `reach` goes from the own forearm (0) to the longest
    // (1); another ball's centre lies half the difference of the radii further from the wrist.
    const placesAt = (figure, phase, reach = 0, radius = figure.ball_radius_m) => {
      const places = Object.fromEntries(
        Object.entries(figure.points).map(([name, every]) => [name, at(every, figure.phase, phase)]),
      );
      if (reach && figure.longer) {
        for (const [name, every] of Object.entries(figure.longer)) {
          places[name] = mixed(places[name], at(every, figure.phase, phase), reach);
        }
      }
      const [from, to] = [places.wrist, places.ball];
      const length = Math.hypot(...from.map((one, i) => to[i] - one));
      places.ball = mixed(from, to, 1 + (radius - figure.ball_radius_m) / 2 / length);
      const [walked] = places.hips;
      for (const place of Object.values(places)) place[0] -= walked;
      return places;
    };

    // Right, up and toward the viewer, in the lab's axes (X to the target, Y up, Z to the right).
    const axesOf = ({ turn, tilt }, side) => {
      const way = (side < 0 ? 180 - turn : turn) * RADIANS;
      const [sine, cosine] = [Math.sin(tilt * RADIANS), Math.cos(tilt * RADIANS)];
      const level = [Math.sin(way), 0, Math.cos(way)];
      return {
        right: [Math.cos(way), 0, -Math.sin(way)],
        up: [-sine * level[0], cosine, -sine * level[2]],
      };
    };

    const HEAD = { along: 0.46, radius: 0.2 }; // of hips to neck: drawn for the eye, no part of the model

    const headOf = ({ hips, neck }) => ({
      place: neck.map((one, i) => one + HEAD.along * (one - hips[i])),
      radius: HEAD.radius * Math.hypot(...neck.map((one, i) => one - hips[i])),
    });

    // Every place of the whole throw, by one who walks along.
    const everywhere = new WeakMap();
    const allOf = (figure) => {
      if (everywhere.has(figure)) return everywhere.get(figure);
      const { hips, neck } = figure.points;
      const heads = hips.map((one, i) => headOf({ hips: one, neck: neck[i] }).place);
      const every = [...Object.values(figure.points), ...Object.values(figure.longer ?? {}), heads];
      const all = every.flatMap((places) => places.map(([x, y, z], i) => [x - hips[i][0], y, z]));
      everywhere.set(figure, all);
      return all;
    };

    // The box of the whole throw from one side; where the figure can be turned freely, one that holds it in every turn.
    const boxOf = (figure, view, along) => {
      const all = allOf(figure);
      const round = (values, pad = PAD_M) => [Math.min(...values) - pad, Math.max(...values) + pad];
      if (Object.values(VIEWS).includes(view)) {
        return { x: round(all.map(along.right)), y: round(all.map(along.up)) };
      }
      const reach = Math.max(...all.map(([x, , z]) => Math.hypot(x, z)));
      const [sine, cosine] = [Math.abs(Math.sin(view.tilt * RADIANS)), Math.cos(view.tilt * RADIANS)];
      const [low, high] = round(all.map((place) => place[1]), 0);
      return {
        x: [-reach - PAD_M, reach + PAD_M],
        y: [low * cosine - reach * sine - PAD_M, high * cosine + reach * sine + PAD_M],
      };
    };

    // From a place to the picture's own coordinates, for a picture of a width and height.
    const projection = (figure, view, width, height) => {
      const axes = axesOf(view, figure.side);
      const on = (axis) => (place) => axis[0] * place[0] + axis[1] * place[1] + axis[2] * place[2];
      const along = { right: on(axes.right), up: on(axes.up) };
      const { x, y } = boxOf(figure, view, along);
      const scale = Math.min(width / (x[1] - x[0]), height / (y[1] - y[0]));
      const [across, middle] = [0.5 * (x[0] + x[1]), 0.5 * (y[0] + y[1])];
      return {
        scale,
        to: (place) => [width / 2 + scale * (along.right(place) - across), height / 2 - scale * (along.up(place) - middle)],
      };
    };

    const made = (svg, name, kind) => {
      let part = svg.querySelector(`.${kind.replaceAll(' ', '.')}`);
      if (!part) {
        part = document.createElementNS(SVG, name);
        part.setAttribute('class', kind);
        svg.append(part);
      }
      return part;
    };

    const write = (part, attributes) => {
      for (const [key, value] of Object.entries(attributes)) part.setAttribute(key, value);
    };

    // Draws into an svg; its parts are made once and then moved. Gives back the places and the projection.
    const draw = (svg, figure, phase, { view = VIEWS.side, width, height, reach, radius = figure.ball_radius_m, head = false }) => {
      const places = placesAt(figure, phase, reach, radius);
      const seen = projection(figure, view, width, height);
      if (head) {
        const { place, radius: size } = headOf(places);
        const [cx, cy] = seen.to(place);
        write(made(svg, 'circle', 'head'), { cx, cy, r: seen.scale * size });
      }
      for (const [from, to] of LINKS) {
        const [[x1, y1], [x2, y2]] = [seen.to(places[from]), seen.to(places[to])];
        write(made(svg, 'line', `link ${to}`), { x1, y1, x2, y2 });
      }
      if (phase <= 1) {
        const [cx, cy] = seen.to(places.ball);
        write(made(svg, 'circle', 'the-ball'), { cx, cy, r: seen.scale * radius });
      } else svg.querySelector('.the-ball')?.remove();
      return { places, seen };
    };

    const eventAt = (phase, rotation) => {
      if (phase < 0) return 'before foot contact';
      if (phase > 1.25) return 'after the follow-through';
      if (Math.abs(phase) < 0.004) return 'foot contact';
      if (Math.abs(phase - 1) < 0.004) return 'release';
      if (phase > 1) return 'after release: the hand is empty';
      if (Math.abs(phase - rotation) < 0.006) return 'maximum external rotation';
      return phase < rotation ? 'foot contact to maximum external rotation' : 'maximum external rotation to release';
    };

    return { VIEWS, at, draw, eventAt, made, placesAt, projection, write };
  })(),
});
