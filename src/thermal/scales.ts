/** Thermometer scales. Exact by definition: °F = 1.8 °C + 32 (NIST SP 811, appendix B.9). */
export const fahrenheitOf = (tempC: number): number => tempC * 1.8 + 32;
export const celsiusOfFahrenheit = (tempF: number): number => (tempF - 32) / 1.8;
