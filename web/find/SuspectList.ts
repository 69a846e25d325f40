import { css, html, LitElement, nothing } from 'lit';
import type { DiagnosisView, OutcomeRow, SuspectRow } from '../../src/report/diagnosisView.ts';
import type { CircuitSeen } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { subjectOf } from './findingParts.ts';
import { percent, ring } from './ring.ts';

/** Suspects that stand on their own, and members of a frame that are named at once. */
const mostBlocks = 7;
const mostMembers = 4;
/** Shares under this are told together. */
const least = 0.01;

type Block = { readonly members: readonly number[]; readonly share: number; readonly text?: string };

/**
 * Who is suspected, likeliest first. Those that nothing said so far parts stand in one frame with what would part them.
 * @fires suspect-pointed - detail: part id or undefined
 */
export class SuspectList extends LitElement {
  static override properties = {
    view: { attribute: false },
    whatIf: { attribute: false },
    circuit: { attribute: false },
    opened: { state: true },
    wide: { state: true },
  };
  declare view: DiagnosisView;
  /** Shares as they would be after this outcome. */
  declare whatIf: OutcomeRow | undefined;
  declare circuit: CircuitSeen;
  declare opened: string | undefined;
  /** Frame that is shown with all its members. */
  declare wide: number | undefined;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      .block {
        border-bottom: 1px solid var(--rule);
        padding: 2px 0;
      }
      .block.frame {
        border: 2px solid var(--halo);
        background: var(--band);
        padding: 2px 8px 6px;
        margin: 4px 0;
      }
      .suspect {
        display: grid;
        grid-template-columns: 32px 72px minmax(0, 1fr);
        gap: 10px;
        align-items: center;
        width: 100%;
        text-align: left;
        border: 0;
        background: none;
        font-weight: 500;
        padding: 0;
        line-height: 1.15;
        min-height: 44px;
      }
      .share {
        font-size: 18px;
        font-weight: 700;
        text-align: right;
        white-space: nowrap;
      }
      .ring .disc {
        fill: var(--halo);
      }
      .ring .thin {
        fill: none;
        stroke: var(--halo);
        stroke-width: 1.2;
      }
      .ring .arc {
        fill: none;
        stroke: var(--halo);
        stroke-width: 5;
      }
      .told {
        padding: 0 0 8px 52px;
        font-size: 15px;
      }
      .told li {
        padding: 2px 0;
      }
      .sentence {
        font-size: 15px;
        padding-left: 52px;
      }
      .whatif {
        border-left: 8px solid var(--hand);
        padding: 4px 0 4px 12px;
        background: var(--handtint);
      }
      .rest {
        padding: 8px 0 4px 114px;
      }
      @media (max-width: 899.9px) {
        .told,
        .sentence {
          padding-left: 8px;
        }
      }
    `,
  ];

  override render() {
    const { view, whatIf } = this;
    if (!view) return nothing;
    const blocks = this.blocks();
    const shown = blocks.slice(0, mostBlocks);
    const rest = 1 - shown.reduce((sum, b) => sum + b.share, 0);
    return html`
      ${whatIf ? html`<p class="whatif">If it reads <b>${whatIf.seen}</b>:</p>` : nothing}
      ${shown.map((b) => this.block(b))}
      ${rest > 0.005 ? html`<p class="rest"><b>${percent(rest)}</b> all else together</p>` : nothing}
    `;
  }

  private shareOf(k: number): number {
    if (!this.whatIf) return this.view.suspects[k]!.probability;
    const at = this.whatIf.leaves.indexOf(k);
    return at < 0 ? 0 : this.whatIf.worth[at]!;
  }

  private blocks(): readonly Block[] {
    const { suspects, groups } = this.view;
    const grouped = new Set<number>();
    const blocks: Block[] = [];
    for (const { suspects: members, text } of this.whatIf ? [] : groups) {
      const known = members.filter((k) => this.shareOf(k) >= 0.001);
      if (known.length < 2) continue;
      for (const k of known) grouped.add(k);
      blocks.push({ members: known, share: known.reduce((sum, k) => sum + this.shareOf(k), 0), text });
    }
    for (const k of suspects.keys()) if (!grouped.has(k) && this.shareOf(k) >= least) blocks.push({ members: [k], share: this.shareOf(k) });
    return blocks.filter((b) => b.share >= least).sort((a, b) => b.share - a.share);
  }

  private block(b: Block) {
    const [first] = b.members;
    const many = b.members.length > mostMembers && this.wide !== first;
    const shown = many ? b.members.slice(0, mostMembers - 1) : b.members;
    return html`<div class="block ${b.text === undefined ? '' : 'frame'}">
      ${shown.map((k) => this.suspect(this.view.suspects[k]!, this.shareOf(k)))}
      ${
        many
          ? html`<button class="plain" @click=${() => {
              this.wide = first;
            }}>and ${b.members.length - shown.length} more, together ${percent(b.share)} in this frame</button>`
          : nothing
      }
      ${b.text === undefined ? nothing : html`<p class="sentence">${b.text}</p>`}
    </div>`;
  }

  private suspect(s: SuspectRow, share: number) {
    const key = s.faults.join(' + ');
    const isOpen = this.opened === key;
    const part = s.faults[0] === undefined ? undefined : subjectOf(s.faults[0]);
    const point = (to: string | undefined) => this.dispatchEvent(new CustomEvent('suspect-pointed', { detail: to }));
    const name = this.circuit.parts.find((p) => p.id === s.parts[0])?.name;
    return html`<button class="suspect" aria-expanded=${isOpen} @click=${() => {
      this.opened = isOpen ? undefined : key;
    }} @pointerenter=${() => point(part)} @pointerleave=${() => point(undefined)} @focus=${() => point(part)} @blur=${() => point(undefined)}>
        ${ring(share)}<span class="share">${percent(share)}</span><span><b>${key === '' ? 'Nothing wrong' : key}</b> ${name ? html`<span class="quiet">${name}:</span> ` : nothing}${s.text}</span>
      </button>
      ${
        isOpen
          ? html`<ul class="told">
              ${s.fits.length > 0 ? html`<li><b>Explains</b> ${s.fits.join('; ')}</li>` : nothing}
              ${s.against.length > 0 ? html`<li><b>Speaks against it</b> ${s.against.join('; ')}</li>` : html`<li>Nothing said so far speaks against it.</li>`}
            </ul>`
          : nothing
      }`;
  }
}
