// How the fuzzer comes to its next input: as it likes, or by as many fresh bytes as it may have. Rows of
// numbers are read from some hundred bytes, to which it would otherwise come one by one.
#include <cstddef>
#include <cstdint>
#include <random>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t max_size,
                                               unsigned seed) {
  std::mt19937 random(seed);
  if (size > 16 && random() % 2 == 0) return LLVMFuzzerMutate(data, size, max_size);
  for (std::size_t i = 0; i < max_size; ++i) data[i] = static_cast<std::uint8_t>(random());
  return max_size;
}
