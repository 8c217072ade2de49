// Gives a text as a file.

/** @param {string} name @param {string} text @param {string} type */
export const download = (name, text, type) => {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  // Not at once: the browser reads it after the click has returned.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
};
