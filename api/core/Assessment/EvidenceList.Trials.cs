using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

internal sealed partial class EvidenceList
{
    private static readonly Dictionary<Strength, double> Factors = new() { [Strength.Slightly] = 2, [Strength.Clearly] = 5, [Strength.Strongly] = 20 };

    private void AddTrials()
    {
        for (int i = 0; i < _investigation.Findings.Length && _life is not null; i++)
        {
            Observation f = _investigation.Findings[i];
            (EventIndex, ulong)[] events = f.Trial is null ? [] : PresentAt(i);
            if (f.Trial is not null && events.Length == 0)
            {
                Asks.Add($"A trial tells nothing as long as no event is reported that it could end. Say what the car did before it.");
            }
            else if (f.Trial is not null)
            {
                _items.Add(Trial(f, f.Trial, _investigation.StretchOf(i), events, i));
            }
        }
    }

    private TrialEvidence Trial(Observation f, TrialFact fact, int world, (EventIndex Event, ulong Cells)[] events, int number)
    {
        Trial? known = fact.Trial is null ? null : _index.Model.Trials.First(t => t.Id == fact.Trial);
        TrialKind kind = known?.Kind ?? fact.Kind;
        string? component = known?.Component ?? fact.Component;
        int part = component is not null && _index.HasPart(component) ? _index.Part(component) : -1;
        PartCopy? standIn = part >= 0 && kind == TrialKind.Another ? StandIn(part, fact.StandIn, f, number) : null;
        int[] right = [.. (known?.Right ?? []).Select(_index.Condition)];
        return new TrialEvidence(
            f.Id, world, events, kind, Enum.Parse<TrialResult>(f.Outcome!, true), part, standIn, Touched(part, kind, known, fact.CameBack), right, fact.CameBack, f.Sure,
            part < 0 ? [] : [.. events.Select(e => (e.Event.Index, e.Event.Hidden(_index, part, e.Cells, TrialFigures.LeastPath)))],
            _sessions[f.Session], _index);
    }

    private PartCopy StandIn(int part, PartQuality quality, Observation f, int number)
    {
        Component component = _index.Parts[part].Source;
        double[] prior = part == _index.Part(ModelIndex.Elsewhere)
            ? [1, 0]
            : _life!.Fitted(component, new WorkFact($"trial {f.Id}", f.Day, WorkAction.Fitted, [component.Id], Known.DidIt, quality, f.RecordedAt));
        return PartCopy.Alone(part, prior, -1 - number);
    }

    /// <summary>Parts whose contact faults the trial makes good for the moment.</summary>
    private Dictionary<int, double> Touched(int part, TrialKind kind, Trial? known, bool? cameBack)
    {
        // a contact that the exchange made good would be good with the old part back, too
        double moved = cameBack == true ? TrialFigures.MovedRight * TrialFigures.CameBackByChance : TrialFigures.MovedRight;
        var touched = new Dictionary<int, double>();
        IEnumerable<string> moves = [.. known?.Moves ?? [], .. part < 0 ? [] : _index.Parts[part].Source.Moves];
        foreach (string plug in moves.Where(_index.HasPart))
        {
            touched[_index.Part(plug)] = kind == TrialKind.Touched ? TrialFigures.TouchedRight : moved;
        }

        if (part >= 0 && kind == TrialKind.Touched)
        {
            touched[part] = TrialFigures.TouchedRight;
        }

        return touched;
    }

    /// <summary>How the trouble came about is a fact of the complaint, with a factor per mode (MODEL.md 4).</summary>
    private void AddOnset()
    {
        if (_investigation.Input.Complaint.Onset is string onset)
        {
            _items.Add(new OnsetEvidence([.. _index.Parts.Where(p => p.Source.Modes.Any(m => m.Onset.ContainsKey(onset)))
                .Select(p => new OwnEvidence(OnsetEvidence.Name, 0, p.Index, [1, .. p.Source.Modes.Select(m => m.Onset.GetValueOrDefault(onset, 1))]))]));
        }
    }

    /// <summary>Of several own observations on one target the strongest counts, of equals the last.</summary>
    private void AddOwn()
    {
        IEnumerable<(Observation Finding, int World, int Number)> own = _investigation.Input.IgnoreOwn ? [] :
            _investigation.Findings.Select((f, i) => (f, _investigation.StretchOf(i), i)).Where(f => f.f.Own is not null);
        foreach (var target in own.GroupBy(f => (f.World, f.Finding.Own!.Component, f.Finding.Own.Side)))
        {
            (Observation f, int world, int number) = target.OrderBy(t => t.Finding.Own!.Strength).Last();
            double factor = f.Own!.For ? Factors[f.Own.Strength] : 1 / Factors[f.Own.Strength];
            if (f.Own.Component is string id && _index.HasPart(id))
            {
                PartIndex part = _index.Parts[_index.Part(id)];
                _items.Add(new OwnEvidence(f.Id, world, part.Index, [1, .. part.Source.Modes.Select(_ => factor)]));
            }
            else if (f.Own.Side is string side && PresentAt(number) is { Length: > 0 } events)
            {
                HashSet<int> parts = [.. _index.Parts.Where(p => p.Source.Side == side).Select(p => p.Index)];
                _items.Add(new SideEvidence(f.Id, world, events, parts, factor));
            }
        }
    }
}
