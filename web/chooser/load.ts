let isLoading = false;

/** Fetches the list of the library with its pictures when it is first opened; the first load of the page goes without. */
export function loadChooser(): void {
  if (isLoading) return;
  isLoading = true;
  void import('./LibraryChooser.ts').then(
    ({ LibraryChooser }) => customElements.define('detent-library', LibraryChooser),
    // No network before the whole program was fetched: the plain list stays, and the next opening tries again.
    () => {
      isLoading = false;
    },
  );
}
