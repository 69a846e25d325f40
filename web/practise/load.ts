let isLoading = false;

/** Fetches the Practise view when it is first shown; the first load of the page goes without. */
export function loadPractiseView(): void {
  if (isLoading) return;
  isLoading = true;
  void import('./register.ts').then(({ registerPractiseView }) => registerPractiseView());
}
