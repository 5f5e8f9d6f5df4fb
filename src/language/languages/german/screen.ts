export const bildschirm = (text: string): string => text;
