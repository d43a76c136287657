export const uncapitalize = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
