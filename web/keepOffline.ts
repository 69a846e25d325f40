/** Registers the service worker where one can run: https or localhost, never from a file. */
export function keepOffline(): void {
  if (import.meta.env.MODE === 'production' && 'serviceWorker' in navigator && location.protocol.startsWith('http'))
    void navigator.serviceWorker.register('./sw.js');
}
