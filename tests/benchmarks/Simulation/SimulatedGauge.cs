using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;
using MathNet.Numerics.Distributions;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>A gauge nobody ever checked, for one quantity on one day: perhaps faulty, perhaps slipped, and off by the same share of its
/// class in every reading (MODEL.md 5).</summary>
internal sealed class SimulatedGauge(Component? template, Random random)
{
    private readonly bool _slipped = random.NextDouble() < ReadingError.Slip;
    private readonly double _off = Normal.Sample(random, 0, 1);

    /// <summary>Its mode; null: ok.</summary>
    public string? Mode { get; } = template is null ? null : CarLot.Gauge(template, random);

    /// <summary>What it shows of a value; nothing below zero.</summary>
    /// <param name="repeat">Standard deviation of a reading of its own.</param>
    /// <param name="top">Upper end of what it can show.</param>
    public double Read(double value, double repeat, double top)
    {
        ReadingError error = ReadingError.Of(null, value, repeat, top, CarLot.Day);
        double bias = template?.Modes.FirstOrDefault(m => m.Id == Mode)?.Bias ?? 0;
        return _slipped
            ? error.Range * random.NextDouble()
            : Math.Max(0, value + (bias * error.BiasUnit) + (_off * Math.Sqrt(error.SharedVariance)) + Normal.Sample(random, 0, Math.Sqrt(error.OwnVariance)));
    }
}
