declare module "psychrolib" {
  interface Psychrometrics {
    SI: number;
    SetUnitSystem(system: number): void;
    /** °C → Pa, over ice below 0. */
    GetSatVapPres(celsius: number): number;
    /** °C, 0 to 1 → Pa. */
    GetVapPresFromRelHum(celsius: number, humidity: number): number;
    /** °C, Pa → 0 to 1. */
    GetRelHumFromVapPres(celsius: number, pressure: number): number;
    /** °C, 0 to 1 → °C. */
    GetTDewPointFromRelHum(celsius: number, humidity: number): number;
    /** °C, 0 to 1, Pa → kg water / kg dry air. */
    GetHumRatioFromRelHum(celsius: number, humidity: number, pressure: number): number;
    /** °C, kg/kg, Pa → m³/kg dry air. */
    GetMoistAirVolume(celsius: number, ratio: number, pressure: number): number;
  }
  const psychrometrics: Psychrometrics;
  export default psychrometrics;
}
