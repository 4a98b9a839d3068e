using FuelHistory.Core.FaultModels;
using FuelHistory.Core.LeakDown;
using FuelHistory.Core.Life;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Assessment;

/// <summary>Turns the findings of an investigation into evidence, and says what is missing or was assumed.</summary>
internal sealed partial class EvidenceList
{
    private readonly ModelIndex _index;
    private readonly Investigation _investigation;
    private readonly LeakTables _leaks;
    private readonly LifePrior? _life;
    private readonly Dictionary<string, InstrumentFact> _instruments;
    private readonly Dictionary<string, CarLimit> _limits = [];
    private readonly Dictionary<string, SessionFact> _sessions = [];
    private readonly List<Evidence> _items = [];

    private readonly Worlds? _worlds;

    /// <param name="leaks">Leak-downs integrated before; null: none.</param>
    /// <param name="life">For the parts that trials put in; null: trials are left out.</param>
    /// <param name="worlds">What was believed of parts before they were looked at; null: not known.</param>
    public EvidenceList(ModelIndex index, Investigation investigation, LeakTables? leaks = null, LifePrior? life = null, Worlds? worlds = null)
    {
        (_index, _investigation, _leaks, _life, _worlds) = (index, investigation, leaks ?? new LeakTables(), life, worlds);
        _instruments = investigation.Input.Car.Instruments.ToDictionary(i => i.Id);
        foreach (CarLimit limit in investigation.Input.Car.Limits)
        {
            _limits[limit.Check] = limit;                   // the newest comes last and wins
        }

        foreach (IGrouping<string, Observation> session in investigation.Findings.GroupBy(f => f.Session))
        {
            bool shown = session.Any(f => (f.Event is not null && f.Outcome != "absent") || f.Showed == Showed.Yes);
            _sessions[session.Key] = new SessionFact(session.Key, shown ? Showed.Yes : session.Any(f => f.Showed == Showed.No) ? Showed.No : Showed.Unknown);
        }

        AddEvents();
        AddChecks();
        AddSeen();
        AddTrials();
        AddOwn();
        AddOnset();
        AddItems();
    }

    public IReadOnlyList<Evidence> Items => _items;

    public LeakTables Leaks => _leaks;

    public List<string> Asks { get; } = [];

    public List<string> Notes { get; } = [];

    public BandEdges? BandsOf(CheckIndex check, IReadOnlyDictionary<string, double> covariates) => BandEdges.For(
        check.Source,
        _index.Conditions[check.Condition].Source,
        _limits.GetValueOrDefault(check.Source.Id),
        check.Source.Covariate is Covariate c && covariates.TryGetValue(c.Id, out double value) ? value : null);

    public LeakLimit? LimitOf(CheckIndex check) => LeakLimit.For(check.Source.Limits!, _limits.GetValueOrDefault(check.Source.Id));

    /// <summary>The gauge last used for a quantity: what a check not yet done would be made with.</summary>
    public InstrumentFact? LastUsed(string? quantity) => _investigation.Findings
        .Where(f => f.Check is not null && f.Instrument is not null && _index.Check(f.Check).Source.Quantity == quantity)
        .Select(f => _instruments.GetValueOrDefault(f.Instrument!)).LastOrDefault(i => i is not null);

    private IEnumerable<(Observation Finding, int World)> Numbered() => _investigation.Findings.Select((f, i) => (f, _investigation.StretchOf(i)));

    private void AddChecks()
    {
        foreach (var group in Numbered().Where(f => f.Finding.Check is not null).GroupBy(f => f.Finding.Check!))
        {
            CheckIndex check = _index.Check(group.Key);
            switch (check.Source.Kind)
            {
                case CheckKind.Measurement:
                    AddReadings(check, [.. group]);
                    break;
                case CheckKind.LeakDown:
                    AddLeakDowns(check, [.. group]);
                    break;
                default:
                    foreach ((Observation f, int world) in group.GroupBy(f => f.World).Select(g => g.Last()))
                    {
                        _items.Add(new OutcomeEvidence(f.Id, check.Gate!, world, check.Outcome(f.Outcome!), f.Sure, check.Source.SeesPart,
                            _sessions[f.Session], Worlds.InstrumentKey(_index, f)));
                    }

                    break;
            }
        }
    }

    private void AddReadings(CheckIndex check, (Observation Finding, int World)[] findings)
    {
        AddLimitWords(check, findings);
        var judged = new List<(BandEdges Bands, MeasuredValue Value)>();
        foreach ((Observation f, int world) in findings.Where(f => f.Finding.Value is not null))
        {
            if (BandsOf(check, f.Covariates) is not BandEdges bands)
            {
                Asks.Add($"{check.Source.Title}: the limit depends on {check.Source.Covariate?.Title.ToLowerInvariant()}; note it with the reading, which is not judged without it.");
                continue;
            }

            Notes.Add(JudgedBy(check));
            judged.Add((bands, new MeasuredValue(f.Id, world, f.Value!.Value, Worlds.InstrumentKey(_index, f), ErrorOf(check, f, f.Value!.Value, bands.Top), _sessions[f.Session])));
        }

        foreach (var same in judged.GroupBy(j => string.Join(';', j.Bands.Edges)))
        {
            _items.Add(new MeasuredEvidence(check.Condition, same.First().Bands, check.Biases, [.. same.Select(j => j.Value)]));
        }
    }

    /// <summary>The last word of a stretch, where it has no reading: who said it had the limit before him, covariate and all.</summary>
    private void AddLimitWords(CheckIndex check, (Observation Finding, int World)[] findings)
    {
        foreach (var stretch in findings.GroupBy(f => f.World).Where(s => s.All(f => f.Finding.Value is null)))
        {
            Observation f = stretch.Last().Finding;
            if (check.LimitWord(f.Outcome) is int outcome and >= 0 && BandsOf(check, f.Covariates.Count > 0 ? f.Covariates : check.MiddleCovariate()) is BandEdges bands)
            {
                Notes.Add(JudgedBy(check));
                double sd = Math.Sqrt(ReadingError.OfWords(bands, check.Source.Repeat) + (bands.Spread * bands.Spread));
                double[][] words = [.. Enumerable.Range(0, bands.Edges.Length - 1).Select(level => bands.Words(level, sd))];
                _items.Add(new LimitWordEvidence(f.Id, check.Condition, words, stretch.Key, outcome, f.Sure, _sessions[f.Session]));
            }
        }
    }

    private void AddLeakDowns(CheckIndex check, (Observation Finding, int World)[] findings)
    {
        if (LimitOf(check) is not LeakLimit limit)
        {
            Asks.Add($"{check.Source.Title}: no limit is known; add the manual's (minutes and pressure).");
            return;
        }

        Notes.Add(JudgedBy(check));
        foreach (var same in findings.GroupBy(f => (f.World, Gauge: Worlds.InstrumentKey(_index, f.Finding))))
        {
            var runs = same.Select(f => (f.Finding, Run: RunOf(check, f.Finding, limit))).Where(r => r.Run is not null).ToArray();
            if (runs.Length > 0)
            {
                _items.Add(new LeakEvidence(check.Section!, limit, same.Key.World, same.Key.Gauge, _sessions[runs[0].Finding.Session],
                    [.. runs.Select(r => (r.Finding.Id, r.Run!))], _leaks));
            }
            else if (same.LastOrDefault(f => f.Finding.Outcome is not null).Finding is Observation word)
            {
                _items.Add(new LeakOutcomeEvidence(word.Id, check.Section!, limit, same.Key.World, same.Key.Gauge, _sessions[word.Session],
                    LeakError(check, word, limit.Low, limit), check.Outcome(word.Outcome!), word.Sure, _leaks));
            }
        }
    }

    private string JudgedBy(CheckIndex check) =>
        _limits.GetValueOrDefault(check.Source.Id) is { } own ? $"{check.Source.Title}: judged by this car's limit ({own.Origin})."
        : _index.Model.Sources.GetValueOrDefault(check.Source.Limits!.Source) is { } source
            ? $"{check.Source.Title}: judged by a typical limit, not by this car's own ({source.Kind.Replace('-', ' ')}: {source.Cite})."
            : $"{check.Source.Title}: judged by a typical limit, not by this car's own.";

    private WatchedPressure? RunOf(CheckIndex check, Observation f, LeakLimit limit)
    {
        (double Minutes, double Bar)[] points = [.. f.Points.Where(p => p.Minutes > Looks.SettlingMinutes).OrderBy(p => p.Minutes).Select(p => (p.Minutes, p.Bar))];
        return points.Length == 0 ? null : Looks.Of(points, LeakError(check, f, points.Max(p => p.Bar), limit));
    }

    /// <summary>A typical limit differs between makers: that widens what all points of the run share.</summary>
    private ReadingError LeakError(CheckIndex check, Observation f, double bar, LeakLimit limit)
    {
        ReadingError error = ErrorOf(check, f, bar, limit.From * 2);
        double spread = _limits.GetValueOrDefault(check.Source.Id) is { Exact: true } ? 0 : check.Source.Limits!.Spread;
        return error with { SharedVariance = error.SharedVariance + (spread * spread) };
    }

    private void AddSeen()
    {
        foreach (var group in Numbered().Where(f => f.Finding.Component is not null && _index.HasPart(f.Finding.Component!)).GroupBy(f => (f.Finding.Component, f.World)))
        {
            (Observation f, int world) = group.Last();
            PartIndex part = _index.Parts[_index.Part(f.Component!)];
            _items.Add(SeenEvidence.Of(f.Id, world, part, PartLikelihood.LookOf(f), _worlds?.Prior(world, part.Index) ?? []));
        }
    }

    private ReadingError ErrorOf(CheckIndex check, Observation f, double value, double top)
    {
        InstrumentFact? instrument = f.Instrument is null ? null : _instruments.GetValueOrDefault(f.Instrument);
        return ReadingError.Of(instrument, value, check.Source.Repeat, top, f.Day);
    }
}
