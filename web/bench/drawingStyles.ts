import { css } from 'lit';

/** Colours and line weights of the drawing; geometry comes from the layout. */
export const drawingStyles = css`
  :host {
    display: grid;
    grid-template-rows: auto minmax(0, 1fr);
    position: relative;
    min-height: 0;
    min-width: 0;
    background: var(--sheet);
  }
  .viewport {
    overflow: auto;
    min-height: 0;
    outline-offset: -3px;
    overscroll-behavior: contain;
  }
  svg {
    display: block;
    font-variant-numeric: tabular-nums;
  }
  path {
    fill: none;
  }
  .frame {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.6;
  }
  .frame.key {
    fill: var(--band);
    stroke-width: 2;
  }
  .link {
    stroke: var(--ink);
    stroke-width: 1.5;
    stroke-dasharray: 7 4;
  }
  .plain {
    stroke: var(--ink);
    stroke-width: 2;
  }
  .gap {
    stroke: var(--sheet);
  }
  .casing path {
    stroke: url(#hatch);
  }
  .hatchground {
    fill: var(--tagtint);
  }
  .hatchline {
    stroke: var(--tag);
    stroke-width: 2.6;
  }
  .way path {
    stroke: var(--hand);
    stroke-opacity: 0.38;
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  .edges path,
  .edge {
    stroke: var(--wireedge);
    stroke-linejoin: miter;
  }
  .cores path {
    transition:
      stroke var(--shift) linear,
      stroke-width var(--shift) linear;
  }
  .swift .cores path {
    transition: none;
  }
  path.floating {
    stroke: var(--ink);
    stroke-width: 3;
    stroke-dasharray: 0 7;
    stroke-linecap: round;
  }
  .chevrons path {
    fill: var(--ink);
    stroke: var(--sheet);
    stroke-width: 1.2;
  }
  .bar {
    stroke: var(--ink);
    stroke-width: 4;
  }
  .ground {
    stroke: var(--ink);
    stroke-width: 2;
  }
  .dot {
    fill: var(--ink);
  }
  .pin {
    fill: var(--sheet);
    stroke: var(--ink);
    stroke-width: 1.6;
  }
  .line {
    stroke: var(--ink);
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  .fill-none {
    fill: none;
  }
  .fill-ink {
    fill: var(--ink);
  }
  .fill-sheet {
    fill: var(--sheet);
  }
  text {
    fill: var(--ink2);
    paint-order: stroke;
    stroke: var(--sheet);
    stroke-width: 4px;
    stroke-linejoin: round;
    pointer-events: none;
  }
  text.l-id,
  text.l-rail,
  text.l-frame,
  text.inside {
    fill: var(--ink);
  }
  text.inside {
    stroke: none;
  }
  .flag rect {
    fill: var(--cautiontint);
    stroke: var(--caution);
    stroke-width: 1.4;
  }
  .flag text {
    fill: var(--caution);
    stroke: none;
    font-size: 14px;
    font-weight: 700;
  }
  .tag {
    fill: var(--sheet);
    stroke: var(--tag);
    stroke-width: 2;
  }
  .tagedge {
    fill: var(--tag);
  }
  .tagring,
  .string,
  .eyelet {
    fill: none;
    stroke: var(--tag);
    stroke-width: 2;
  }
  .string {
    stroke-width: 1.8;
  }
  .eyelet {
    fill: var(--sheet);
  }
  text.tagsubject {
    fill: var(--ink);
    stroke: none;
    font-size: 17px;
    font-weight: 700;
  }
  text.tagfault {
    fill: var(--tag);
    stroke: none;
    font-size: 15px;
    font-weight: 600;
  }
  text.tagextent,
  text.tabnumber {
    fill: var(--ink);
    stroke: none;
    font-size: 14px;
    font-weight: 500;
  }
  text.tabnumber {
    font-weight: 700;
  }
  .halo .disc {
    fill: var(--halo);
  }
  .halo .thin {
    fill: none;
    stroke: var(--halo);
    stroke-width: 1.2;
  }
  .halo .arc {
    stroke: var(--halo);
    stroke-width: 6;
  }
  .lead {
    cursor: grab;
    touch-action: none;
  }
  .lead path {
    stroke: var(--hand);
    stroke-width: 3.4;
  }
  .lead circle {
    fill: var(--sheet);
    stroke: var(--hand);
    stroke-width: 3;
  }
  .lead rect {
    fill: var(--hand);
  }
  .lead text {
    fill: var(--onhand);
    stroke: none;
    font-size: 16px;
    font-weight: 600;
  }
  .lead .letter {
    font-weight: 700;
    font-size: 17px;
  }
  .hits rect,
  .hits path {
    fill: transparent;
    stroke: transparent;
    pointer-events: all;
    cursor: pointer;
  }
  .hits path {
    fill: none;
    stroke-width: 14;
    pointer-events: stroke;
  }
  .markedwire {
    fill: none;
    stroke: var(--hand);
    stroke-width: 7;
    stroke-opacity: 0.45;
    pointer-events: none;
  }
  .chosen {
    fill: none;
    stroke: var(--hand);
    stroke-width: 2;
    stroke-dasharray: 5 4;
    pointer-events: none;
  }
  .focusring {
    fill: none;
    stroke: var(--hand);
    stroke-width: 3;
    pointer-events: none;
  }
  .viewport:not(:focus-visible) .focusring {
    display: none;
  }
  :host([paper]) {
    display: block;
    height: auto;
  }
  :host([paper]) .viewport {
    overflow: hidden;
  }
  :host([paper]) svg {
    width: 100%;
    height: auto;
    display: block;
  }
  .causering {
    fill: none;
    stroke: var(--ink);
    stroke-width: 4;
  }
  .numberdisc {
    fill: var(--ink);
  }
  .marknumber {
    fill: var(--sheet);
    stroke: none;
    font-size: 16px;
    font-weight: 700;
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 6px;
    padding: 0 16px 0 18px;
  }
  .zoom {
    margin-left: auto;
  }
  /* Zoom alone lies on the drawing, where a view has no other tools. */
  :host(:not([tools])) {
    grid-template-rows: minmax(0, 1fr);
  }
  :host(:not([tools])) .tools {
    position: absolute;
    right: 8px;
    bottom: 8px;
    padding: 0;
  }
  .readout {
    position: absolute;
    left: 8px;
    bottom: 8px;
    max-width: calc(100% - 180px);
    padding: 2px 8px;
    background: var(--sheet);
    font-size: 15px;
  }
  .readout:empty {
    display: none;
  }
  .zoom {
    display: flex;
    flex: none;
  }
  .tools input {
    width: 150px;
    flex: none;
  }
  .only {
    flex: none;
  }
  .folds {
    flex: none;
    position: relative;
  }
  .folds summary {
    display: flex;
    align-items: center;
    list-style: none;
  }
  .folds[open] summary {
    background: var(--ink);
    color: var(--sheet);
  }
  .folds fieldset {
    position: absolute;
    z-index: 2;
    left: 0;
    top: calc(100% + 4px);
    width: max-content;
    padding: 8px 16px 12px;
    background: var(--paper);
    border: 2px solid var(--ink);
  }
  .folds legend {
    float: left;
    width: 100%;
    padding: 4px 0;
    font-weight: 700;
  }
  .folds label {
    display: flex;
    clear: both;
    align-items: center;
    gap: 8px;
    min-height: 44px;
  }
  .folds label input {
    flex: none;
    width: 24px;
    min-height: 24px;
    margin: 0;
  }
  .folds label .quiet {
    margin-left: auto;
    padding-left: 16px;
  }
  .narrow {
    display: none;
  }
  @media (max-width: 899.9px) {
    .tools {
      padding: 0 16px 4px;
    }
    .zoom {
      position: absolute;
      z-index: 1;
      right: 8px;
      bottom: 8px;
    }
    .tools input,
    .only {
      display: none;
    }
    .narrow {
      display: block;
      margin-right: auto;
    }
  }
  .zoom button {
    min-width: 44px;
    border-radius: 0;
    margin-left: -1px;
  }
  @media (forced-colors: active) {
    .cores path {
      stroke: CanvasText;
    }
    .cores .v0 {
      stroke-dasharray: 2 7;
    }
    .cores .v1 {
      stroke-dasharray: 8 5;
    }
    .edges path {
      stroke: Canvas;
    }
    .halo {
      display: none;
    }
  }
  @media print {
    .tools {
      display: none;
    }
    .viewport {
      overflow: visible;
    }
    svg {
      width: 100%;
      height: auto;
      max-height: 150mm;
    }
    .edges path,
    .edge {
      stroke: #000;
      stroke-width: 1.6;
    }
    .cores path,
    .solid,
    .chevrons {
      display: none;
    }
  }
`;
