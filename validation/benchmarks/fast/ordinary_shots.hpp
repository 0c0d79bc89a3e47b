#pragma once
#include <random>
#include <vector>

#include "whimbrel/compiled.hpp"

/// The shots that everything is timed with.
namespace whimbrel::benchmarks {

/// Numbers that are the same with every standard library.
class Spread {
 public:
  double between(double lower, double upper) {
    return lower + (upper - lower) * (static_cast<double>(engine() >> 11) * 0x1p-53);
  }

 private:
  std::mt19937_64 engine{20};
};

/// Full shots, each in a wind of its own that grows smoothly with height: the first ones of many are those of
/// few.
struct OrdinaryShots {
  std::vector<Delivery<>> deliveries;
  std::vector<Launch<>> launches;
  std::vector<Wind<>> winds;
  Club<> club = shipped_club("7 iron");
  Ball<> ball{};
  MultiLayer model{};  ///< that of the ball

  explicit OrdinaryShots(std::size_t count) {
    Spread spread;
    const auto degrees = [&](double lower, double upper) {
      return spread.between(lower, upper) * units::deg;
    };
    for (std::size_t i = 0; i < count; ++i) {
      launches.push_back({.ball_speed = spread.between(40, 80),
                          .launch_angle = degrees(8, 30),
                          .launch_direction = degrees(-5, 5),
                          .spin_rate = spread.between(2000, 10000) * units::rpm,
                          .spin_axis_tilt = degrees(-15, 15)});
      winds.push_back({.speed = spread.between(0, 12), .from_direction = degrees(-180, 180)});
      deliveries.push_back({.clubhead_speed = spread.between(30, 45),
                            .club_path = degrees(-6, 6),
                            .attack_angle = degrees(-7, 0),
                            .face_angle = degrees(-4, 4),
                            .dynamic_loft = degrees(18, 30),
                            .strike_toe = spread.between(-0.012, 0.012),
                            .strike_high = spread.between(-0.008, 0.008)});
    }
  }

  std::size_t count() const { return launches.size(); }
  Setting<> setting(std::size_t i) const { return {.wind = winds[i]}; }
  Swing<> swing(std::size_t i) const { return {deliveries[i], club}; }
};

}  // namespace whimbrel::benchmarks
