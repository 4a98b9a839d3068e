using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>A figure of a fault model and the span in which it is believable.</summary>
public sealed record SanityFigure(string What, double Value, double Low, double High)
{
    public bool Met => Value >= Low && Value <= High;
}

/// <summary>What a model says of a 40-year-old car of which nothing is known, beside the targets of MODEL.md 2. Consumables and gauges do not count.</summary>
public static class SanityTargets
{
    private const int Age = 40, LaidUp = 5;

    /// <param name="asOf">Any day; it only fixes the calendar.</param>
    /// <returns>Without a complaint, laid up, and two figures for each cell of an event.</returns>
    public static IReadOnlyList<SanityFigure> Of(CompiledModel model, DateOnly asOf)
    {
        ArgumentNullException.ThrowIfNull(model);
        var car = new CarRecord { FirstUse = asOf.AddYears(-Age) };
        List<Component> counted = [.. model.Source.Components.Where(c => !c.Consumable && !c.Instrument)];
        return [InUse(model, car, asOf, counted), Parked(model, car, asOf, counted), .. Asked(model, car, asOf, counted)];
    }

    private static SanityFigure InUse(CompiledModel model, CarRecord car, DateOnly asOf, List<Component> counted)
    {
        var life = new LifePrior(model.Source, car, asOf, asOf);
        return new("bad components in regular use", counted.Sum(c => 1 - life.Of(c)[0]), 0.4, 1.2);
    }

    private static SanityFigure Parked(CompiledModel model, CarRecord car, DateOnly asOf, List<Component> counted)
    {
        DateOnly since = asOf.AddYears(-LaidUp);
        var life = new LifePrior(model.Source, car with { LayUps = [new LayUpSpan("l", since, asOf)] }, asOf, since);

        // components are independent before any finding, so the chances of none and of exactly one follow part by part
        double none = 1, one = 0;
        foreach (Component c in counted)
        {
            double ok = life.Of(c)[0];
            (none, one) = (none * ok, (one * ok) + (none * (1 - ok)));
        }

        return new($"more than one bad after {LaidUp} years laid up", 1 - none - one, 0.25, 0.60);
    }

    private static IEnumerable<SanityFigure> Asked(CompiledModel model, CarRecord car, DateOnly asOf, List<Component> counted)
    {
        // step one: the car with every event at once, a stock from which one at a time is taken
        ModelIndex index = model.Index;
        Observation[] present = [.. model.Source.Cells.Select(c => Present(c.Id, asOf))];
        var input = new AssessmentInput(car with { Findings = present }, new ComplaintFact("c", asOf.AddDays(-14), false, false), asOf);
        Investigation investigation = Investigation.From(index, input);
        var life = new LifePrior(model.Source, investigation.Past(), investigation.FirstDay, investigation.RanWell());
        var evidence = new EvidenceList(index, investigation);
        var all = new Situation(index, model.Networks, Worlds.From(index, investigation, life), evidence.Items, [], false);

        // step two: each alone
        foreach (EventEvidence asked in evidence.Items.OfType<EventEvidence>().SelectMany(e => e.Reports.Select(r => new EventEvidence(e.Source, [r]))))
        {
            Situation situation = all.With(evidence: [asked]);
            double[][] states = situation.States(out double log)!;
            yield return new($"bad components with {Cell(asked).Id}", counted.Sum(c => 1 - states[index.Part(c.Id)][0]), 1.2, 2.2);
            yield return Uncaused(situation, asked, log);
        }
    }

    /// <summary>P(no modelled component that can cause the event is bad): "ok" entered on all of them. Broad events have a background
    /// of 0.015 and more, narrow ones 0.003 and less (MODEL.md 4); between them the wider limits hold.</summary>
    private static SanityFigure Uncaused(Situation situation, EventEvidence asked, double log)
    {
        ModelIndex index = situation.Index;
        bool[] causes = Ancestors.Of(index, asked.Source, asked.Open);
        Evidence[] ok = [.. index.Parts.Where(p => causes[p.Index] && !p.Source.Instrument && p.Id != ModelIndex.Elsewhere)
            .Select(p => SeenEvidence.Ok(0, p))];
        double none = Math.Exp(situation.With(evidence: [asked, .. ok]).LogWeight() - log);
        double background = Cell(asked).Background;
        return new($"no modelled cause of {Cell(asked).Id}", none, background >= 0.015 ? 0.05 : 0.01, background <= 0.003 ? 0.15 : 0.35);
    }

    private static EventCell Cell(EventEvidence asked) => asked.Source.Cells[EventIndex.Each(asked.Open).First()];

    private static Observation Present(string cell, DateOnly day) => new()
    {
        Id = cell,
        ComplaintId = "c",
        Event = cell,
        Outcome = "present",
        Day = day,
        At = new DateTimeOffset(day, default, TimeSpan.Zero),
        RecordedAt = new DateTimeOffset(day, default, TimeSpan.Zero),
        Session = "",
    };
}
