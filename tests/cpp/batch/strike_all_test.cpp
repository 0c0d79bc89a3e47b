#include <doctest/doctest.h>

#include <whimbrel/compiled.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr std::size_t impacts = 3000;

/// Many strikes with one club: where their numbers are, and what comes of them, a launch and an impact a row.
struct Strikes {
  std::vector<Delivery<>> deliveries;
  Club<> club;
  std::vector<Ball<>> balls;
  std::vector<Launch<>> launches;
  std::vector<std::array<double, 5>> told;
  StrikeColumns columns;

  explicit Strikes(const Club<>& club) : club(club) {
    Random random{std::mt19937_64(1)};
    for (std::size_t i = 0; i < impacts; ++i) {
      Swing<> swing = any_swing(random);
      swing.delivery.strike_toe = random.between(-0.5, 0.5) * club.face_width;
      swing.delivery.strike_high = random.between(-0.5, 0.5) * club.face_height;
      deliveries.push_back(swing.delivery);
      balls.push_back(any_ball(random));
    }
    launches.resize(deliveries.size());
    told.resize(deliveries.size());
    set_columns(columns.delivery, std::span<const Delivery<>>(deliveries));
    set_columns(columns.club, this->club);
    set_columns(columns.ball, std::span<const Ball<>>(balls));
    columns.hand = club.hand;
    OutColumn* launch = columns.launch;
    for (const auto& field : Launch<>::fields())
      *launch++ = {&(launches[0].*field.member), sizeof(Launch<>) / sizeof(double)};
    for (std::size_t i = 0; i < 5; ++i) columns.impact[i] = {&told[0][i], 5};
  }
  Strikes(const Strikes&) = delete;
};

void strike(Strikes& strikes, StrikeKernel kernel) {
  std::vector<std::size_t> rows(strikes.deliveries.size());
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = i;
  for (std::size_t i = 0; i < rows.size(); i += block_size)
    kernel({strikes.columns, rows.data() + i, std::min(block_size, rows.size() - i)});
}

bool close(const Launch<>& a, const Launch<>& b, double relative) {
  for (const auto& field : Launch<>::fields()) {
    const double x = a.*field.member, y = b.*field.member;
    const double scale = field.unit == "rad"
                             ? 1.0
                             : std::max(std::abs(x), field.name == "axial_spin_rate" ? a.spin_rate : 0.0);
    if (!(std::abs(x - y) <= relative * scale) && !(std::isnan(x) && std::isnan(y))) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("impacts in lanes of every instruction set and single impacts agree") {
  for (const char* name : {"driver", "7 iron", "lob wedge"}) {
    Strikes first(shipped_club(name));
    strike(first, kernels().strike);
    for (const Kernels* level : runnable_kernels())
      for (const StrikeKernel kernel : {level->strike, level->strike_alone}) {
        Strikes again(shipped_club(name));
        strike(again, kernel);
        for (std::size_t i = 0; i < first.launches.size(); ++i) {
          CAPTURE(i);
          CHECK(close(first.launches[i], again.launches[i], 1e-9));
        }
      }
  }
}

TEST_CASE("launches in lanes are within 0.02 % of contacts in many more steps") {
  for (const Hand hand : {Hand::right, Hand::left}) {
    Strikes fast(shipped_club("7 iron", hand));
    strike_all(fast.deliveries.size(), fast.columns, 0, [](std::size_t, const InputError&) {});
    for (std::size_t i = 0; i < fast.deliveries.size(); ++i) {
      const Swing<> swing{fast.deliveries[i], fast.club};
      if (first_mistake(swing, fast.balls[i])) {
        CHECK(std::isnan(fast.launches[i].ball_speed));
        continue;
      }
      const Launch<> exact = kernel::strike(swing, fast.balls[i]).launch;
      INFO("impact ", i, ": ", described(swing.delivery));
      if (exact.spin_rate > 5.0) CHECK(close(exact, fast.launches[i], 2e-4));
    }
  }
}

TEST_CASE("the rigid model in lanes is the rigid model") {
  Strikes fast(shipped_club("driver"));
  for (Delivery<>& delivery : fast.deliveries) delivery.strike_toe = delivery.strike_high = 0.0;
  fast.columns.model = ImpactModel::rigid;
  strike_all(fast.deliveries.size(), fast.columns, 1, [](std::size_t, const InputError&) {});
  for (std::size_t i = 0; i < fast.deliveries.size(); ++i) {
    const Swing<> swing{fast.deliveries[i], fast.club, ImpactModel::rigid};
    if (!first_mistake(swing, fast.balls[i]))
      CHECK(close(kernel::strike(swing, fast.balls[i]).launch, fast.launches[i], 1e-12));
  }
}
