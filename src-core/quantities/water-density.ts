import { err, ok, type Result } from '../base/result.ts';
import { polynomial } from './polynomial.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from './validity.ts';

const TANAKA: Limits = {
  quantity: 'temperatureCelsius',
  low: 0,
  high: 40,
  unit: '°C',
  source: 'Tanaka et al. 2001, Metrologia 38:301',
};

/**
 * Density of air-free water at 101 325 Pa in kg/m³, 0–40 °C, the formula recommended by the CIPM. Source: Tanaka
 * et al. 2001, Metrologia 38:301–309. At 20 °C it gives 998.2067; the other published formulas differ from it by up
 * to 0.006 kg/m³ (OIML R 22 998.2012, Bettin and Spieweck 998.2031, Kell 998.2041, CRC 998.2071).
 */
export function waterDensity(temperatureCelsius: number): Result<number, OutOfRange> {
  const outside = firstOutOfRange([temperatureCelsius, TANAKA]);
  if (outside) return err(outside);
  const t = temperatureCelsius;
  return ok(999.97495 * (1 - ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881))));
}

const KELL: Limits = {
  quantity: 'temperatureCelsius',
  low: 0,
  high: 150,
  unit: '°C',
  source: 'Kell 1975, J. Chem. Eng. Data 20:97',
};

/**
 * Density of water in kg/m³ after Kell 1975 (J. Chem. Eng. Data 20:97; IPTS-68), 0–150 °C. The denominator is
 * 16.879850e-3; a widely read paper of 1992 prints two of its digits transposed, which is wrong by 0.27 kg/m³ at
 * 20 °C.
 */
export function waterDensityKell(temperatureCelsius: number): Result<number, OutOfRange> {
  const outside = firstOutOfRange([temperatureCelsius, KELL]);
  if (outside) return err(outside);
  const t = temperatureCelsius;
  const above = polynomial(
    [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12],
    t,
  );
  return ok(above / (1 + 16.87985e-3 * t));
}

/**
 * Density of water in kg/m³ after Bettin and Spieweck 1990 (PTB-Mitteilungen 100:195; ITS-90), for the range that
 * the caller has already checked. It is the water under the ICUMSA sucrose density and must be used with it.
 */
export function waterDensityBettin(temperatureCelsius: number): number {
  const t = temperatureCelsius;
  const above = polynomial(
    [999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12],
    t,
  );
  return above / (1 + 16.887236e-3 * t);
}
