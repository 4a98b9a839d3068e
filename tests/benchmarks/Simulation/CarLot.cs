using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>A complaint as a driver tells it: what was asked, and what of it shows.</summary>
/// <param name="Main">The event that is the main trouble.</param>
internal sealed record Told(IReadOnlyList<string> Asked, IReadOnlyList<EventCell> Present, string Main)
{
    /// <summary>Share of what was told that still shows, the main trouble counting twice (MODEL.md 8); 0..1.</summary>
    public double Left(SimulatedCar car)
    {
        (double Weight, bool Shows)[] events = [.. Present.GroupBy(c => c.Event ?? c.Id)
            .Select(e => (e.Key == Main ? EvidenceList.MainWeight : EvidenceList.EventWeight, e.Any(car.Shows)))];
        return events.Sum(e => e.Shows ? e.Weight : 0) / events.Sum(e => e.Weight);
    }
}

/// <summary>Cars drawn from the fault model by their number: the same number is the same car.</summary>
internal sealed class CarLot
{
    public static readonly DateOnly FirstUse = new(1981, 6, 1), Since = new(2025, 5, 1), Day = new(2025, 6, 1);

    /// <summary>Questions that a driver is asked. Which ones does not hang on what is wrong: cars are kept or left by answers that the
    /// assessment has as well, else its forecasts would be of other cars than the ones kept.</summary>
    private const int Questions = 12;

    /// <summary>More than a driver would call one complaint.</summary>
    private const int TooMany = 5;

    private readonly LifePrior _life;

    public CarLot(FaultModel model)
    {
        Model = model;
        _life = new LifePrior(model, new CarRecord { FirstUse = FirstUse }, Day, Since.AddDays(-30));
        Priors = model.Components.Where(c => !c.Instrument).ToDictionary(c => c.Id, c => _life.Of(c));
        Priors["elsewhere"] = [1 - model.Elsewhere.Prior, model.Elsewhere.Prior];
    }

    public FaultModel Model { get; }

    /// <summary>Per component: P(ok), P(mode).</summary>
    public Dictionary<string, double[]> Priors { get; }

    /// <param name="given">Faults that it has for certain.</param>
    public SimulatedCar Draw(int number, params (string Component, string Mode)[] given)
    {
        var random = new Random(number);
        var states = new Dictionary<string, string?>();
        foreach ((string id, double[] prior) in Priors)
        {
            int state = Pick(prior, random.NextDouble());
            states[id] = state == 0 ? null : id == "elsewhere" ? "present" : Component(id).Modes[state - 1].Id;
        }

        foreach ((string component, string mode) in given)
        {
            states[component] = mode;
        }

        return new SimulatedCar(this, random, states);
    }

    /// <summary>Null: nothing to complain of, or more than one complaint.</summary>
    public Told? Complaint(int number, SimulatedCar car)
    {
        string[] asked = [.. Model.Cells.Select(c => c.Id)];
        var random = new Random(-1 - number);
        random.Shuffle(asked);
        asked = asked[..Questions];
        EventCell[] present = [.. Model.Cells.Where(c => asked.Contains(c.Id) && car.Shows(c))];
        if (present.Length is 0 or >= TooMany)
        {
            return null;
        }

        EventCell main = present[random.Next(present.Length)];
        return new Told(asked, present, main.Event ?? main.Id);
    }

    public Component Component(string id) => Model.Components.Single(c => c.Id == id);

    /// <summary>The mode in which a new part comes; null: ok. One that will fail early is still ok on the day.</summary>
    public string? NewPart(Component component, Random random)
    {
        double[] bad = [.. FittedPart.Shares(component).Select(s => s * _life.BadWhenFitted(component, PartQuality.New) / 2)];
        return Mode(component, [1 - bad.Sum(), .. bad], random);
    }

    /// <summary>The mode of a gauge that nobody ever checked; null: ok.</summary>
    public static string? Gauge(Component template, Random random) => Mode(template, LifePrior.Instrument(template, null, Day), random);

    private static string? Mode(Component component, double[] states, Random random) =>
        Pick(states, random.NextDouble()) is int state and > 0 ? component.Modes[state - 1].Id : null;

    private static int Pick(double[] probabilities, double u)
    {
        int state = 0;
        while (state < probabilities.Length - 1 && u >= probabilities[state])
        {
            u -= probabilities[state++];
        }

        return state;
    }
}
