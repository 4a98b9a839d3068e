using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

internal sealed partial class EvidenceList
{
    /// <summary>Weights before they are scaled: an event, the main event, a failed check or a part seen bad (MODEL.md 8).</summary>
    public const double EventWeight = 1, MainWeight = 2, FailedWeight = 0.5;

    /// <summary>What the complaint consists of.</summary>
    public IReadOnlyList<Item> Complaint { get; private set; } = [];

    private void AddItems()
    {
        Item[] items = [.. EventItems(), .. CheckItems(), .. PartItems()];
        double sum = items.Sum(i => i.Weight);
        Complaint = [.. items.Select(i => i with { Weight = i.Weight / sum })];
    }

    private IEnumerable<Item> EventItems()
    {
        foreach (EventEvidence e in _items.OfType<EventEvidence>().Where(e => e.Open != 0 && e.LastPresent is not null))
        {
            bool[] reach = Ancestors.Of(_index, e.Source, e.Open);
            foreach (TrialEvidence trial in _items.OfType<TrialEvidence>().Where(t => t.Part >= 0 && t.Arrows.Any(p => p.Event == e.Source.Index)))
            {
                reach[trial.Part] = true;
            }

            string[] findings = [.. e.Reports.Where(r => r.Present && (r.Cells & e.Open) != 0).Select(r => r.Id).Distinct()];
            yield return new EventItem(e.Source.Id, e.Source.TitleOf(e.Open), findings, e.LastPresent!.World, IsMain(e.Source) ? MainWeight : EventWeight,
                e.Source, e.Open, e.SurelyPresent)
            { Reach = reach };
        }
    }

    /// <summary>Checks whose last finding failed.</summary>
    private IEnumerable<Item> CheckItems()
    {
        var judged = _items.SelectMany(e => e.Findings).ToHashSet();
        foreach (var group in Numbered().Where(f => f.Finding.Check is not null && judged.Contains(f.Finding.Id)).GroupBy(f => f.Finding.Check!))
        {
            CheckIndex check = _index.Check(group.Key);
            (Observation last, int world) = group.Last();
            if (Failed(check, last))
            {
                yield return CheckItem(check, last, world);
            }
        }
    }

    private Item CheckItem(CheckIndex check, Observation last, int world)
    {
        Check source = check.Source;
        if (check.Section is LeakSection section)
        {
            return new LevelItem(source.Id, source.Title, [last.Id], world, FailedWeight, section.Watches, section.Store)
            {
                Reach = Ancestors.OfConditions(_index, section.Store < 0 ? section.Watches : [.. section.Watches, section.Store]),
            };
        }

        return check.Condition >= 0
            ? new LevelItem(source.Id, source.Title, [last.Id], world, FailedWeight, [check.Condition], -1) { Reach = Ancestors.OfConditions(_index, [check.Condition]) }
            : new OutcomeItem(source.Id, source.Title, [last.Id], world, FailedWeight, check.Gate!) { Reach = Ancestors.Of(_index, check.Gate!) };
    }

    private bool Failed(CheckIndex check, Observation f)
    {
        if (check.Section is not null)
        {
            return LimitOf(check) is LeakDown.LeakLimit limit && (f.Points.Count > 0
                ? LeakOutcomeEvidence.OutcomeOf(f.Points.MaxBy(p => p.Minutes)!.Bar, limit) > 0
                : check.Outcome(f.Outcome!) > 0);
        }

        if (check.Condition >= 0)
        {
            return f.Value is double value
                ? BandsOf(check, f.Covariates) is Readings.BandEdges bands && bands.BandOf(value) != -_index.Conditions[check.Condition].Min
                : LimitWordEvidence.Names[check.LimitWord(f.Outcome)] != "within";
        }

        return check.Outcome(f.Outcome!) > 0;
    }

    private IEnumerable<Item> PartItems()
    {
        foreach (var group in Numbered().Where(f => f.Finding.Component is not null && _index.HasPart(f.Finding.Component!)).GroupBy(f => f.Finding.Component!))
        {
            (Observation last, int world) = group.Last();
            if (last.Outcome == "bad")
            {
                PartIndex part = _index.Parts[_index.Part(group.Key)];
                var reach = new bool[_index.Parts.Length];
                reach[part.Index] = true;
                yield return new PartItem(part.Id, part.Source.Title, [last.Id], world, FailedWeight, part.Index) { Reach = reach };
            }
        }
    }
}
