#pragma once
#include <numbers>

/// Trade units exist only at the edges: multiply to enter (`84 * units::mph`), divide to leave.
/// Every factor is exact by definition of its unit, in SI.
namespace whimbrel::units {

inline constexpr double mm = 1e-3;                       // m
inline constexpr double cm = 1e-2;                       // m
inline constexpr double inch = 0.0254;                   // m, international yard and pound agreement 1959
inline constexpr double ft = 12 * inch;                  // m
inline constexpr double yd = 3 * ft;                     // m
inline constexpr double mile = 1760 * yd;                // m
inline constexpr double hour = 3600.0;                   // s
inline constexpr double mph = mile / hour;               // m/s
inline constexpr double kmh = 1000.0 / hour;             // m/s
inline constexpr double knot = 1852.0 / hour;            // m/s
inline constexpr double fps = ft;                        // m/s
inline constexpr double deg = std::numbers::pi / 180.0;  // rad
inline constexpr double rpm = std::numbers::pi / 30.0;   // rad/s
inline constexpr double gram = 1e-3;                     // kg
inline constexpr double lb = 0.45359237;                 // kg
inline constexpr double hPa = 100.0;                     // Pa
inline constexpr double mmHg = 13.5951 * 9.80665;        // Pa, conventional millimetre of mercury
inline constexpr double inHg = 25.4 * mmHg;              // Pa
inline constexpr double percent = 0.01;                  // 1

constexpr double celsius(double degrees) { return degrees + 273.15; }                          // K
constexpr double fahrenheit(double degrees) { return celsius((degrees - 32.0) * 5.0 / 9.0); }  // K
constexpr double in_celsius(double kelvin) { return kelvin - 273.15; }
constexpr double in_fahrenheit(double kelvin) { return in_celsius(kelvin) * 9.0 / 5.0 + 32.0; }

}  // namespace whimbrel::units

/// `using namespace whimbrel::literals;` and then `84.0_mph`, `24_deg`, `2520_rpm`, `150_yd`, `12_mm`.
namespace whimbrel::literals {

constexpr double operator""_mph(long double x) { return static_cast<double>(x) * units::mph; }
constexpr double operator""_deg(long double x) { return static_cast<double>(x) * units::deg; }
constexpr double operator""_rpm(long double x) { return static_cast<double>(x) * units::rpm; }
constexpr double operator""_yd(long double x) { return static_cast<double>(x) * units::yd; }
constexpr double operator""_mm(long double x) { return static_cast<double>(x) * units::mm; }
constexpr double operator""_mph(unsigned long long x) { return static_cast<double>(x) * units::mph; }
constexpr double operator""_deg(unsigned long long x) { return static_cast<double>(x) * units::deg; }
constexpr double operator""_rpm(unsigned long long x) { return static_cast<double>(x) * units::rpm; }
constexpr double operator""_yd(unsigned long long x) { return static_cast<double>(x) * units::yd; }
constexpr double operator""_mm(unsigned long long x) { return static_cast<double>(x) * units::mm; }

}  // namespace whimbrel::literals
