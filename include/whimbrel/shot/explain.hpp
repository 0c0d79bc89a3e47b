#pragma once
#include "whimbrel/core/parallel.hpp"
#include "whimbrel/flight/fly.hpp"
#include "whimbrel/impact/strike.hpp"
#include "whimbrel/shot/causes.hpp"
#include "whimbrel/shot/shapley.hpp"

namespace whimbrel {

/// Why a shot went where it went, against a reference: carry and offline shared out among the causes.
template <Scalar T = double>
struct CauseLedger {
  T reference_carry{}, reference_offline{};  ///< m, of the reference
  T carry{}, offline{};                      ///< m, of the shot: the reference's plus all shares
  Shapley<cause_count, T> of_carry{}, of_offline{};
  std::size_t replays = 0;   ///< strikes and flights calculated
  std::size_t grounded = 0;  ///< of those, balls that never left the ground: they count with a carry of 0
};

/// Where a sideways distance comes from, in this order. First what a square, centred strike of the same
/// speed, attack and loft does from a level stance; then what strike point, stance and lie add; then face and
/// path, each the mean of being added before and after the other.
template <Scalar T = double>
struct Sideways {
  T square{}, strike_and_stance{}, face{}, path{};  ///< m, positive right
  T total() const { return square + strike_and_stance + face + path; }
};

/// Offline in a fixed order: the start line (the launch without spin-axis tilt, no wind), what the tilt
/// curves, what the wind drifts. Their totals add up to offline.
template <Scalar T = double>
struct StartAndCurve {
  Sideways<T> start{}, curve{}, wind{};
};

namespace kernel {

/// The club and ball to replay strokes with.
template <Scalar T>
struct Replay {
  const Club<T>& club;
  const Ball<T>& ball;
  ImpactModel model;

  Swing<T> swing(const Stroke<T>& stroke) const { return {stroke.delivery, club, model}; }
  Flight<T> flight(const Stroke<T>& stroke) const {
    return kernel::fly(kernel::strike(swing(stroke), ball).launch, ball, stroke.setting);
  }
  /// Why a stroke cannot be played, if it cannot.
  std::optional<InputError> mistake(const Stroke<T>& stroke) const {
    return first_mistake(swing(stroke), ball, stroke.setting);
  }
  /// Start line, curve and drift of one stroke, m.
  std::array<T, 3> sideways(const Stroke<T>& stroke) const {
    const Launch<T> launch = kernel::strike(swing(stroke), ball).launch;
    Launch<T> straight = launch;
    straight.spin_axis_tilt = T(0.0);
    Setting<T> still = stroke.setting;
    still.wind.speed = T(0.0);
    const T start = kernel::fly(straight, ball, still).offline;
    const T curved = kernel::fly(launch, ball, still).offline;
    const bool calm = value(stroke.setting.wind.speed) == 0.0;
    const T landed = calm ? curved : kernel::fly(launch, ball, stroke.setting).offline;
    return {start, curved - start, landed - curved};
  }
};

}  // namespace kernel

/// The ledger of causes: 256 replays, or fewer where causes are the same in both. `threads` 0: all cores.
/// @throws InputError where the reference, with some of the shot's causes, is no shot; std::runtime_error
/// where such a replay fails or does not come down.
template <Scalar T>
CauseLedger<T> explain_causes(const Stroke<T>& shot, const Stroke<T>& reference, const Club<T>& club,
                              const Ball<T>& ball = {}, ImpactModel model = ImpactModel::compliant,
                              unsigned threads = 0) {
  const kernel::Replay<T> replay{club, ball, model};
  const Causes alike = every_cause & ~differing(shot, reference);
  std::array<T, every_cause + 1> carry{}, offline{};
  std::array<Status, every_cause + 1> status{};
  parallel_for(carry.size(), threads, [&](std::size_t i) {
    const Causes causes = static_cast<Causes>(i);
    if ((causes & alike) != alike) return;
    const Stroke<T> stroke = with_causes(reference, shot, causes, club.hand);
    const std::string with = "replayed with the shot's " + listed(causes & ~alike) + ": ";
    if (const auto error = replay.mistake(stroke))
      throw InputError(error->field, error->value, with + error->what());
    const Flight<T> flight = replay.flight(stroke);
    if (flight.status != Status::ok && flight.status != Status::not_airborne)
      throw std::runtime_error(with + std::string(describe(flight.status)));
    carry[i] = flight.carry;
    offline[i] = flight.offline;
    status[i] = flight.status;
  });
  CauseLedger<T> ledger;
  for (Causes causes = 0; causes <= every_cause; ++causes)
    if ((causes & alike) == alike) {
      ++ledger.replays;
      ledger.grounded += status[causes] == Status::not_airborne;
    } else {
      carry[causes] = carry[causes | alike];
      offline[causes] = offline[causes | alike];
    }
  ledger.reference_carry = carry[0];
  ledger.reference_offline = offline[0];
  ledger.carry = carry[every_cause];
  ledger.offline = offline[every_cause];
  ledger.of_carry = shapley<cause_count>(carry);
  ledger.of_offline = shapley<cause_count>(offline);
  return ledger;
}

/// The ledger of start and curve. Square is what face and path of the reference are.
/// @throws as `explain_causes`.
template <Scalar T>
StartAndCurve<T> start_and_curve(const Stroke<T>& shot, const Stroke<T>& reference, const Club<T>& club,
                                 const Ball<T>& ball = {}, ImpactModel model = ImpactModel::compliant) {
  const kernel::Replay<T> replay{club, ball, model};
  constexpr Causes face = set_of(Cause::face_angle), path = set_of(Cause::path),
                   strike = set_of(Cause::strike_point) | set_of(Cause::stance_and_lie);
  const auto with = [&](Causes causes) {
    const Stroke<T> stroke = with_causes(reference, shot, causes, club.hand);
    if (const auto error = replay.mistake(stroke)) throw *error;
    const std::array<T, 3> distances = replay.sideways(stroke);
    for (const T& distance : distances)
      if (!std::isfinite(value(distance)))
        throw std::runtime_error("a replayed flight failed or did not land");
    return distances;
  };
  constexpr Causes rest = every_cause & ~(face | path | strike);
  const auto square = with(rest), struck = with(rest | strike), faced = with(rest | strike | face),
             pathed = with(rest | strike | path), all = with(every_cause);
  const auto shared = [&](std::size_t i) {
    const T half(0.5);
    return Sideways<T>{square[i], struck[i] - square[i], half * (faced[i] - struck[i] + (all[i] - pathed[i])),
                       half * (pathed[i] - struck[i] + (all[i] - faced[i]))};
  };
  return {shared(0), shared(1), shared(2)};
}

}  // namespace whimbrel
