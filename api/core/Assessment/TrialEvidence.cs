namespace FuelHistory.Core.Assessment;

/// <summary>What was changed for a moment.</summary>
public enum TrialKind
{
    /// <summary>Another part in its place.</summary>
    Another,
    /// <summary>Fed or bypassed directly.</summary>
    Bypassed,
    /// <summary>Unplugged or blanked off.</summary>
    Unplugged,
    /// <summary>Wiggled, struck, warmed or cooled.</summary>
    Touched,
    /// <summary>Extra fuel given.</summary>
    ExtraFuel,
}

/// <summary>What the complaint then did.</summary>
public enum TrialResult { Ended, Better, Same, Worse }

/// <summary>How likely each result is (MODEL.md 4): with nothing right, and what is added where the main event, and where all events are right.</summary>
internal static class TrialFigures
{
    /// <summary>A trial makes it worse, whatever is true; and if the tried part was sound and its stand-in bad.</summary>
    public const double Worse = 0.05, WorseByStandIn = 0.3;

    /// <summary>It comes back with the old part although that was not the cause; it stays away although it was.</summary>
    public const double CameBackByChance = 0.03;

    /// <summary>A contact fault of a part that is touched is made good for the moment; of a plug that an exchange moves.</summary>
    public const double TouchedRight = 0.7, MovedRight = 0.4;

    /// <summary>People try what they have reason to suspect: the tried part's path to each event is at least this.</summary>
    public const double LeastPath = 0.7;

    public static (double Nothing, double Main, double All) Of(TrialResult result) => result switch
    {
        TrialResult.Ended => (0.01, 0, 0.64),
        TrialResult.Better => (0.16, 0.64, -0.48),
        TrialResult.Same => (0.83, -0.64, -0.16),
        _ => (1, 0, 0),
    };
}

/// <summary>A trial as it enters: the world it made and what came of it.</summary>
/// <param name="Part">The part tried; -1: only conditions.</param>
/// <param name="StandIn">The part in its place; null: none.</param>
/// <param name="Touched">Parts whose contact faults were made good for the moment, with the probability.</param>
/// <param name="Right">Conditions that were right for certain.</param>
/// <param name="CameBack">With the old part back it came back (true), stayed away (false), or that was not tried (null).</param>
/// <param name="Paths">Hidden arrows of the tried part: event, and per mode the probability that raises its path.</param>
internal sealed record TrialEvidence(
    string Id,
    int World,
    IReadOnlyList<(EventIndex Event, ulong Cells)> Events,
    TrialKind Kind,
    TrialResult Result,
    int Part,
    PartCopy? StandIn,
    IReadOnlyDictionary<int, double> Touched,
    IReadOnlyList<int> Right,
    bool? CameBack,
    bool Sure,
    IReadOnlyList<(int Event, EventGroup Arrow)> Paths,
    SessionFact Session,
    ModelIndex Index) : Hypothetical(Id, World, Events)
{
    public override IReadOnlyList<int> Forced => Right;

    /// <summary>Only what helped tells of a link that the file may lack; with what changed nothing, or made it worse, a raised path would make the
    /// part likelier for having been tried.</summary>
    public override IReadOnlyList<(int Event, EventGroup Arrow)> Arrows => Result is TrialResult.Ended or TrialResult.Better ? Paths : [];

    public override int Decides => Result switch { TrialResult.Ended => 3, TrialResult.Better => 2, _ => 1 };

    public override (Hypothetical, double)? AllRight => Tried < 0 ? null : (this with { RightForCertain = true }, Weights() switch { var (nothing, main, all) => nothing + main + all });

    private bool RightForCertain { get; init; }

    public override int Tried => Kind == TrialKind.Touched || StayedAway ? -1 : Part;

    public override Hypothetical Plain => StandIn is null ? this : this with { StandIn = null, StandInBad = 1 - StandIn.Prior![0] };

    /// <summary>Chance that what was put in is bad, where it has no variable.</summary>
    private double StandInBad { get; init; }

    /// <summary>What stays away with the old part back was not ended by the exchange: at most the plugs that it moved.</summary>
    private bool StayedAway => CameBack == false && Kind != TrialKind.Touched;

    public override PartCopy?[] Parts(Worlds worlds)
    {
        PartCopy?[] parts = [.. worlds.Stretches[World]];
        foreach ((int part, double right) in Touched)
        {
            parts[part] = parts[part]?.Touched(Index.Parts[part].Source, right);
        }

        if (Part >= 0 && Kind != TrialKind.Touched && !StayedAway)
        {
            parts[Part] = Kind == TrialKind.Another ? StandIn : null;
        }

        return parts;
    }

    public override IEnumerable<Otherwise> Otherwise() =>
        Enum.GetValues<TrialResult>().Where(r => r != Result).Select(r => new Otherwise(Id, (int)r, this with { Result = r, CameBack = null }));

    public override void Suppose(EvidenceCircuit circuit, int number, Omitted? without)
    {
        foreach ((int source, EventGroup arrow) in Arrows)
        {
            circuit.Hide(source, arrow);
        }

        bool counts = !Omitted.Has(without, Id);
        (double nothing, double main, double all) = RightForCertain ? (0, 0, 1) : counts ? Weights() : (1, 0, 0);
        // whether an intermittent fault acts during a trial is another question than whether it did in the session; no change says nothing where it did not
        bool unknown = circuit.Intermittent && (Result is TrialResult.Ended or TrialResult.Better);
        int acting = unknown ? circuit.Acting(new SessionFact($"trial {Id}", Showed.Unknown)) : -1;
        Demand(circuit, number, acting, unknown ? -1 : circuit.Acting(Session), nothing, main, all);
        if (StandIn is not null && !StayedAway)
        {
            EnterHarm(circuit, counts);
        }
    }

    public override double Weight(double right)
    {
        (double nothing, double main, double all) = Weights();
        return nothing + (right * (main + all));
    }

    private (double Nothing, double Main, double All) Weights()
    {
        (double nothing, double main, double all) = TrialFigures.Of(Result);
        if (Result == TrialResult.Ended && CameBack is bool back)
        {
            double chance = back ? TrialFigures.CameBackByChance : 1 - TrialFigures.CameBackByChance;
            all = ((nothing + all) * (StayedAway ? chance : 1 - chance)) - (nothing * chance);
            nothing *= chance;
        }

        // not sure: half itself, half any of four
        (main, all) = (main * (1 - StandInBad), all * (1 - StandInBad));
        return Sure ? (nothing, main, all) : ((nothing / 2) + 0.125, main / 2, all / 2);
    }

    /// <summary>Worse, or not: by whether the tried part was sound and its stand-in bad.</summary>
    private void EnterHarm(EvidenceCircuit circuit, bool counts)
    {
        Circuit c = circuit.Circuit;
        PartCopy? tried = c.Worlds[World][Part];
        bool worse = Result == TrialResult.Worse;
        c.Network.Add(tried is null ? [c.Variable(StandIn!)] : [c.Variable(tried), c.Variable(StandIn!)], at =>
        {
            double harm = (tried is null || at[0] == 0) && at[^1] > 0 ? TrialFigures.WorseByStandIn : TrialFigures.Worse;
            double seen = worse ? harm : 1 - harm;
            return counts ? seen : 1;
        });
    }
}
