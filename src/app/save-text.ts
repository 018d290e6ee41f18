const TYPES: Readonly<Record<string, string>> = {
  '.ics': 'text/calendar;charset=utf-8',
  '.csv': 'text/csv;charset=utf-8',
};

/**
 * Hands a text file to the person: through the platform's sharing where that takes files (a phone), else as a download.
 * @returns false when it was called off
 */
export const saveText = async (name: string, text: string): Promise<boolean> => {
  // Some browsers refuse to share .json: the name ends with .txt. A calendar is opened by its type (RFC 5545, section 8.1).
  const type = TYPES[name.slice(name.lastIndexOf('.'))] ?? 'text/plain';
  const file = new File([text], name, { type });
  const touch = matchMedia('(pointer: coarse)').matches;
  if (touch && navigator.canShare?.({ files: [file] }) === true) {
    try {
      await navigator.share({ files: [file], title: name });
      return true;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return false;
      // Sharing is not to be had after all: download it.
    }
  }
  download(file);
  return true;
};

export const download = (file: File): void => {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  link.click();
  // The download reads it after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
};
