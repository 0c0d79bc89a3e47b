#pragma once
#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace whimbrel {

/// Calls body(i) for every i below count, on `threads` threads (0: all cores), in any order; what
/// body(i) computes may depend on i alone. A thread takes `chunk` of them at a time. The first exception ends
/// the work and is thrown again.
template <class Body>
void parallel_for(std::size_t count, unsigned threads, const Body& body, std::size_t chunk = 64) {
  if (threads == 0) threads = std::max(1u, std::thread::hardware_concurrency());
  const std::size_t chunks = (count + chunk - 1) / chunk;
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::once_flag first;
  const auto work = [&] {
    try {
      for (std::size_t c = next++; c < chunks; c = next++)
        for (std::size_t i = c * chunk; i < std::min(count, (c + 1) * chunk); ++i) body(i);
    } catch (...) {
      std::call_once(first, [&] { failure = std::current_exception(); });
      next = chunks;
    }
  };
  {
    std::vector<std::jthread> others;
    for (std::size_t k = 1; k < std::min<std::size_t>(threads, chunks); ++k) others.emplace_back(work);
    work();
  }
  if (failure) std::rethrow_exception(failure);
}

}  // namespace whimbrel
