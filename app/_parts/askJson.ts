/** Asks the server for data of now. Null where no answer came, or a refusal: then nothing is known. */
export async function askJson<T>(address: string, method: 'GET' | 'POST' = 'GET'): Promise<T | null> {
  try {
    const response = await fetch(address, { method, cache: 'no-store' })
    return response.ok ? ((await response.json()) as T) : null
  } catch {
    return null
  }
}
