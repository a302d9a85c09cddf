// What a block, a part or a kind of garment looks like: asked of the engine when it comes into sight, and kept.

import { Component, html } from "./vendor/preact-htm.js";
import { ask } from "./store.js";

/** of: what is asked for, `picture` of a block or a part, `kind` of a garment; none(): there is nothing to be drawn */
export class Picture extends Component {
  state = { picture: null };

  componentDidMount() {
    this.seen = new IntersectionObserver((entries) => entries.some((each) => each.isIntersecting) && this.ask(), { rootMargin: "25%" });
    this.seen.observe(this.base);
  }

  componentWillUnmount() {
    this.seen.disconnect();
  }

  shouldComponentUpdate(_, { picture }) {
    return picture !== this.state.picture;
  }

  async ask() {
    this.seen.disconnect();
    const { of, name, body } = this.props;
    const picture = await ask(of, { name, body }).catch(() => null);
    if (!picture) return;
    this.setState({ picture });
    if (!picture.paths.length) this.props.none?.();
  }

  render(_, { picture }) {
    const [left, top, width, height] = picture?.box ?? [0, 0, 1, 1];
    const edge = 0.02 * Math.max(width, height);
    return html`<svg
      class="flat"
      hidden=${picture !== null && !picture.paths.length}
      viewBox=${`${left - edge} ${top - edge} ${width + 2 * edge} ${height + 2 * edge}`}
      aria-hidden="true"
    >
      ${picture?.paths.map(({ kind, d, x, y }) => html`<path class=${kind} d=${d} transform=${`translate(${x} ${y})`} />`)}
    </svg>`;
  }
}
