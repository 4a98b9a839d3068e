using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Simulation;

/// <summary>How forecasts of P(bad) and cure come true: as the car comes, after some checks, and after a repair that did not end the complaint.</summary>
internal sealed class Calibration(CompiledModel model)
{
    /// <summary>Of each car, the parts likeliest to cure it.</summary>
    private const int Leaders = 10;

    private const int MostChecks = 12;

    private readonly Reliability[] _bad = [new("P(bad) as told"), new("P(bad) after checks"), new("P(bad) after a repair")];
    private readonly Reliability[] _relieved = [new("relieved as told"), new("relieved after checks"), new("relieved after a repair")];

    private readonly Reliability[] _alone = [new("fixes alone as told"), new("fixes alone after checks"), new("fixes alone after a repair")];

    /// <summary>Answers that are no exact ones, and say so, are left out.</summary>
    private int _inexact;

    /// <param name="first">Number of the first car: others with another one.</param>
    public void Run(int cars, int first = 0)
    {
        var lot = new CarLot(model.Source);
        int kept = 0, number = first;
        for (; kept < cars; number++)
        {
            SimulatedCar car = lot.Draw(number);
            if (lot.Complaint(number, car) is Told told)
            {
                kept++;
                Follow(new Search(model, car, told), car, new Random(number));
            }
        }

        Console.WriteLine($"{kept} cars with a complaint, of {number - first}; {_inexact} answers were not exact and are left out");
        for (int i = 0; i < _bad.Length; i++)
        {
            _bad[i].Print();
            _relieved[i].Print();
            _alone[i].Print();
        }
    }

    private void Follow(Search search, SimulatedCar car, Random random)
    {
        // 1. as told
        search.AskEvents();
        Note(0, search, car);

        // 2. some checks, chosen without a look at what is wrong
        foreach (Check check in random.GetItems([.. model.Source.Checks], 1 + random.Next(MostChecks)).Distinct())
        {
            search.Make(check);
        }

        Ranking now = Note(1, search, car);

        // 3. the likeliest part put right; what was asked is asked again
        int leader = Parts(now).First();
        search.PutRight(model.Index.Parts[leader].Id, "replace");
        search.AskEvents();
        Note(2, search, car);
    }

    private Ranking Note(int stage, Search search, SimulatedCar car)
    {
        Ranking ranking = search.Rank();
        _inexact += search.Exact ? 0 : 1;
        foreach (int part in Parts(ranking).Take(search.Exact ? Leaders : 0))
        {
            string id = model.Index.Parts[part].Id;
            _bad[stage].Add(ranking.Bad(part), car.States[id] is not null);
            NoteItems(stage, ranking, part, car, search);
            NoteAll(stage, ranking, part, car, search);
        }

        return ranking;
    }

    /// <summary>Item by item: an event is relieved if none of its open cells shows with the part put right.</summary>
    private void NoteItems(int stage, Ranking ranking, int part, SimulatedCar car, Search search)
    {
        string id = model.Index.Parts[part].Id;
        for (int i = 0; i < ranking.Items.Count; i++)
        {
            if (ranking.Items[i].Kind == ItemKind.Event && ranking.Items[i].World == (stage == 2 ? 1 : 0))
            {
                EventCell[] open = [.. search.Open.Where(c => (c.Event ?? c.Id) == ranking.Items[i].Name)];
                _relieved[stage].Add(ranking.Relieved(i, new Repair(false, part)), car.With(id, () => !open.Any(car.Shows)));
            }
        }
    }

    /// <summary>All items together, where all are events that showed last in the stretch of now.</summary>
    private void NoteAll(int stage, Ranking ranking, int part, SimulatedCar car, Search search)
    {
        if (ranking.Items.Count > 0 && ranking.Items.All(i => i.Kind == ItemKind.Event && i.World == (stage == 2 ? 1 : 0)))
        {
            string[] items = [.. ranking.Items.Select(i => i.Name)];
            EventCell[] open = [.. search.Open.Where(c => items.Contains(c.Event ?? c.Id))];
            _alone[stage].Add(ranking.FixesAlone(part), car.With(model.Index.Parts[part].Id, () => !open.Any(car.Shows)));
        }
    }

    /// <summary>Those that the present events hang on; the first can be put right.</summary>
    private IEnumerable<int> Parts(Ranking ranking) => model.Index.Parts.Where(p => !p.Source.Instrument && ranking.Reaches(p.Index))
        .OrderBy(p => p.Id == ModelIndex.Elsewhere).ThenByDescending(p => ranking.Explains(p.Index)).Select(p => p.Index);
}
