/** Defines each tag that is not yet defined: a view may be fetched after another one that shares an element with it. */
export function define(tags: Readonly<Record<string, CustomElementConstructor>>): void {
  for (const [tag, element] of Object.entries(tags)) if (!customElements.get(tag)) customElements.define(tag, element);
}
