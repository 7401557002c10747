namespace Aslaid.Workbench;

/// <summary>One way to go wrong: what happens on site and what becomes of the files afterwards. It keeps no state.</summary>
internal interface IMistake
{
    /// <summary>Name of the check that should find it.</summary>
    string Check { get; }

    /// <summary>What size means; null where the mistake is there or not.</summary>
    MistakeScale? Scale => null;

    /// <summary>Whether the site with every mistake has it too: it then spoils nothing but its own plot.</summary>
    bool Together => false;

    /// <summary>Whether only the design tells: then the site has one.</summary>
    bool AgainstDesign => false;

    /// <summary>What goes wrong while the crew is still there.</summary>
    void OnSite(Plot plot)
    {
    }

    /// <summary>What goes wrong or is left undone when all files are shot.</summary>
    void Afterwards(Plot plot)
    {
    }
}
