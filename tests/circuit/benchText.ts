/** A bench with a key switch, a connector, a one-terminal part and every sort of key; read without a problem. */
export const benchText = `title: Bench board, 12 V
about: |
  Two lines
  for the reader
ambient: 25 °C
cautions: [ hands clear ]
parts:
  G1: { kind: supply, voltage: 12.6 V, resistance: 0.01 Ω }
  S1:
    kind: key-switch
    positions:
      LOCK:  { at: 0°, key-out: yes }
      ACC:   { at: 30° }
      ON:    { at: 60° }
      START: { at: 90°, springs-to: ON }
    contacts: { 30-75: [22°..74°], 30-15: [48°..95°], 30-50: [80°..95°] }
  X2: { kind: connector, pins: 3 }
  J1: { kind: splice }
  R1: { kind: resistor, resistance: 47 Ω }
  R2: { kind: resistor, resistance: 10 kΩ, place: under the board, note: spare }
  H1: { kind: lamp, power: 5 W, at: 12 V, name: Panel lamp, load: yes, minutes: 3 }
  H2: { kind: lamp, power: 2 W, load: no, with: [S2 on] }
  S2: { kind: switch }
wires:
  - { id: W1, from: G1.+, to: S1.30, area: 2.5 mm², length: 1.2 m, colour: RD }
  - { from: S1.15, to: R1.1 }
  - { id: W7, from: R1.2, to: H1.1, via: [X2.1, X2.2], area: 1 mm², length: 0.9 m, colour: BK/YE }
  - { from: H1.2, to: ground }
  - { from: G1.-, to: ground }
  - { from: S1.75, to: J1 }
  - { from: J1, to: S2.1 }
  - { from: S2.2, to: H2.1 }
  - { from: H2.2, to: block }
  - { from: block, to: ground, area: 16 AWG, length: 40 cm }
  - { from: S1.50, to: R2.1 }
  - { from: R2.2, to: ground }
engine: { crank: R2, spark: H1, fuel: [H2], drives: [] }
`;
