// Long work answers line by line.

/** Lines of JSON as they come. @param {ReadableStream<Uint8Array>} body */
export async function* lines(body) {
  const reader = body.pipeThrough(new TextDecoderStream()).getReader();
  let held = "";
  for (;;) {
    const { value, done } = await reader.read();
    held += value ?? "";
    const whole = held.split("\n");
    held = whole.pop() ?? "";
    for (const line of whole) if (line) yield JSON.parse(line);
    if (done) return;
  }
}
