namespace FuelHistory.Core.LeakDown;

/// <summary>How a pressure falls after the stop (MODEL.md 6).</summary>
internal enum LeakLaw
{
    /// <summary>Flow in proportion to pressure: worn seat, seal, clearance.</summary>
    Seep,

    /// <summary>Flow in proportion to the root of the pressure: a hole.</summary>
    Orifice,

    /// <summary>As seep until the store has given all it has, then ten times faster.</summary>
    Collapse,

    /// <summary>No store: down soon to what the lines keep, then as seep.</summary>
    Settle,
}

/// <summary>The laws with hold pressure 1, their weights and the ranges of their parameters.</summary>
internal static class LeakLaws
{
    public static readonly LeakLaw[] All = [LeakLaw.Seep, LeakLaw.Orifice, LeakLaw.Collapse, LeakLaw.Settle];

    /// <summary>After the store has run empty.</summary>
    public const double Faster = 10;

    /// <summary>Pressure at which the store is empty, bar.</summary>
    public const double EmptyFrom = 1.0, EmptyTo = 2.5;

    /// <summary>Share of the hold pressure that the lines keep without a store.</summary>
    public const double KeptFrom = 0.2, KeptTo = 0.55;

    /// <summary>Time constant of settling, minutes.</summary>
    public const double SettlesFrom = 0.3, SettlesTo = 1.2;

    /// <summary>The same where the pressure drops to the hold pressure first.</summary>
    public const double SettlesAfterDropFrom = 1.0, SettlesAfterDropTo = 3.0;

    /// <summary>Time constants of that drop, minutes; equally likely.</summary>
    public static readonly double[] Drops = [0.1, 0.25, 0.5];

    /// <summary>From here on, minutes, nothing is seen of the drop.</summary>
    public const double DropLasts = 1.1;

    /// <summary>What is left of a drop.</summary>
    public static double Dropping(double minutes, int drop) => Math.Exp(-minutes / Drops[drop]);

    /// <summary>Heat soak: its height, and the probability of it.</summary>
    public static readonly (double Rise, double Weight)[] Soaks = [(0, 0.5), (0.05, 0.25), (0.10, 0.25)];

    /// <summary>Which of <see cref="Soaks"/> a share 0..1 of all probability falls on.</summary>
    public static int SoakAt(double share)
    {
        int h = 0;
        while (h < Soaks.Length - 1 && (share -= Soaks[h].Weight) >= 0)
        {
            h++;
        }

        return h;
    }

    /// <summary>When heat soak is highest, minutes.</summary>
    private const double SoakPeak = 12;

    public static double Weight(LeakLaw law, bool storeLost) => (law, storeLost) switch
    {
        (LeakLaw.Settle, true) => 0.6,
        (LeakLaw.Settle, false) => 0,
        (_, true) => 0.4 / 3,
        _ => 1 / 3.0,
    };

    /// <summary>What heat soak multiplies the pressure by.</summary>
    public static double Soak(double minutes, double rise) => 1 + (rise * (minutes / SoakPeak) * Math.Exp(1 - (minutes / SoakPeak)));

    public static double Seep(double minutes, double tau) => Math.Exp(-minutes / tau);

    public static double Orifice(double minutes, double tau)
    {
        double root = Math.Max(0, 1 - (minutes / (2 * tau)));
        return root * root;
    }

    /// <param name="empty">When the store runs empty, in time constants; 0: it was empty from the start.</param>
    public static double Collapse(double minutes, double tau, double empty) =>
        minutes <= empty * tau ? Seep(minutes, tau) : Math.Exp(((Faster - 1) * empty) - (Faster * minutes / tau));

    public static double Settle(double minutes, double tau, double kept, double settles) =>
        (kept + ((1 - kept) * Math.Exp(-minutes / settles))) * Seep(minutes, tau);

    /// <summary>When the store runs empty, in time constants.</summary>
    public static double EmptyAt(double hold, double emptyBar) => Math.Max(0, Math.Log(hold / emptyBar));

    /// <summary>Minutes from one pressure to a lower one by a seep; the time constant is resistance x compliance.</summary>
    public static double SeepMinutes(double tau, double fromBar, double toBar) => tau * Math.Log(fromBar / toBar);

    /// <summary>Minutes from one pressure to a lower one through a hole, for a time constant stated at the hold pressure.</summary>
    public static double OrificeMinutes(double tau, double hold, double fromBar, double toBar) => 2 * tau * (Math.Sqrt(fromBar / hold) - Math.Sqrt(toBar / hold));
}
