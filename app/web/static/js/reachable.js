// Whether the server answers now. navigator.onLine only says that some network is there.

const PATIENCE_MS = 2500;

export async function isServerThere() {
  try {
    const signal = AbortSignal.timeout(PATIENCE_MS);
    const response = await fetch("/health", { cache: "no-store", signal });
    return response.ok;
  } catch {
    return false;
  }
}
